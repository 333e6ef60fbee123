/** Cases over HTTP (contract, section 3). */
@NullMarked
package entrapment.registry.cases.web;

import org.jspecify.annotations.NullMarked;
