/** Centres and keys over HTTP, and how a key becomes a viewer. */
@NullMarked
package entrapment.registry.access.web;

import org.jspecify.annotations.NullMarked;
