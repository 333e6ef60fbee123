/** What is the same for every request: problems, numbers of requests, headers, sizes, the web container. */
@NullMarked
@ApplicationModule(allowedDependencies = {"intake"})
package entrapment.registry.http;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
