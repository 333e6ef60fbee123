/** Every question as JSON, CSV, slides and page (contract, section 5). */
@NullMarked
package entrapment.registry.reports.web;

import org.jspecify.annotations.NullMarked;
