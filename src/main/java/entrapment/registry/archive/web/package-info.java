/** The archive over HTTP. */
@NullMarked
package entrapment.registry.archive.web;

import org.jspecify.annotations.NullMarked;
