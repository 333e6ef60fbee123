/** What leaves the network, over HTTP. */
@NullMarked
package entrapment.registry.releases.web;

import org.jspecify.annotations.NullMarked;
