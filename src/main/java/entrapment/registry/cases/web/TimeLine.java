package entrapment.registry.cases.web;

import entrapment.registry.cases.EntrapmentCase.Attempt;
import entrapment.registry.vocabulary.Result;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/**
 * Where the attempts of a case stand on a line of minutes from entrapment.
 *
 * @param marks attempts whose minutes are known
 * @param without how many have no minutes
 */
record TimeLine(List<Mark> marks, List<Tick> ticks, long without) {

    private static final int LEFT = 24;
    private static final int WIDTH = 560;

    /** Closer than this, two numbers would cover each other. */
    private static final int APART = 24;

    private static final int LOWEST = 56;
    private static final long[] STEPS = {1, 2, 5, 10, 15, 30, 60, 120, 240, 480};

    record Mark(int number, int x, int y, boolean released) {}

    /** A minute that is written at the line. */
    record Tick(int x, long minute) {}

    static TimeLine of(List<Attempt> attempts) {
        long last = attempts.stream()
                .map(Attempt::minutesFromEntrapment)
                .mapToLong(minutes -> minutes == null ? 0 : minutes)
                .max()
                .orElse(0);
        long step = LongStream.of(STEPS)
                .filter(each -> each * 6 >= last)
                .findFirst()
                .orElse(480);
        long end = Math.max(step, (last + step - 1) / step * step);
        List<Mark> marks = new ArrayList<>();
        IntStream.range(0, attempts.size()).forEach(index -> {
            Long minutes = attempts.get(index).minutesFromEntrapment();
            if (minutes != null) {
                marks.add(mark(index + 1, x(minutes, end), attempts.get(index).result() == Result.RELEASED, marks));
            }
        });
        List<Tick> ticks = LongStream.rangeClosed(0, end / step)
                .mapToObj(number -> new Tick(x(number * step, end), number * step))
                .toList();
        return new TimeLine(List.copyOf(marks), ticks, attempts.size() - marks.size());
    }

    private static Mark mark(int number, int x, boolean released, List<Mark> before) {
        int y = LOWEST;
        if (!before.isEmpty()) {
            Mark last = before.get(before.size() - 1);
            y = x - last.x() >= APART
                    ? LOWEST
                    : last.y() == LOWEST ? LOWEST - APART : last.y() == LOWEST - APART ? 8 : LOWEST;
        }
        return new Mark(number, x, y, released);
    }

    private static int x(long minutes, long end) {
        return (int) (LEFT + WIDTH * minutes / end);
    }
}
