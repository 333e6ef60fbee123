/** What every question is made of: its declaration, what it is about, what it is split by, how it is counted and shown. */
@NullMarked
@NamedInterface("question")
package entrapment.registry.reports.question;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
