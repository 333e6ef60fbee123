/** The code lists as a resource, for whoever builds a form or reads an export. */
@NullMarked
package entrapment.registry.vocabulary.web;

import org.jspecify.annotations.NullMarked;
