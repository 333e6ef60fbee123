/** Reports and calculations over HTTP (contract, sections 5 and 6). */
@NullMarked
package entrapment.registry.reports.web;

import org.jspecify.annotations.NullMarked;
