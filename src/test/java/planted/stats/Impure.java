package planted.stats;

import org.springframework.util.StringUtils;

/** A statistic that leans on the framework. */
public final class Impure {

    private Impure() {}

    public static boolean impure(String text) {
        return StringUtils.hasText(text);
    }
}
