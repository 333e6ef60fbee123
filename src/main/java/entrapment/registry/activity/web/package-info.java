/** Activity returns over HTTP (contract, section 4). */
@NullMarked
package entrapment.registry.activity.web;

import org.jspecify.annotations.NullMarked;
