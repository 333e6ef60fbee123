/** Meetings over HTTP. */
@NullMarked
package entrapment.registry.meetings.web;

import org.jspecify.annotations.NullMarked;
