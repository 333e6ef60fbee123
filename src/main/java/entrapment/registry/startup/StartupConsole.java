package entrapment.registry.startup;

/**
 * What is said once to the person who starts the service. Not through the log, which is kept and forwarded: the first
 * steward key must not end there.
 */
final class StartupConsole {

    private StartupConsole() {}

    static void print(String... lines) {
        for (String line : lines) {
            System.out.println(line);
        }
    }
}
