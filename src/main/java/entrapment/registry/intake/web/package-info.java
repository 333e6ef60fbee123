/** What the network has settled about intake, as a resource. */
@NullMarked
package entrapment.registry.intake.web;

import org.jspecify.annotations.NullMarked;
