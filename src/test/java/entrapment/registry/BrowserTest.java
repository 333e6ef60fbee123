package entrapment.registry;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/** A test of pages in Chromium, over the whole service; skipped, and said so, where there is no Chromium. */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@RegistryTest
@Tag("browser")
@ExtendWith(ChromiumCondition.class)
public @interface BrowserTest {}
