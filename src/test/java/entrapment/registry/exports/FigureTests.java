package entrapment.registry.exports;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Kind;
import entrapment.registry.exports.Figure.Mark;
import entrapment.registry.exports.Figure.Shape;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class FigureTests {

    @Test
    void everyMarkHasAShapeOfItsOwn() {
        assertThat(Stream.of(Mark.values()).map(Mark::shape)).doesNotHaveDuplicates();
        assertThat(Stream.of(Shape.values()).map(Shape::sign)).doesNotHaveDuplicates();
    }

    @Test
    void theEndsOfAnAxisOfRatiosAreOnIt() {
        Figure figure = figure(Kind.FOREST, ratio(0.01, 0.01, 100.0), ratio(1, 0.0099, 100.1));

        assertThat(figure.items()).extracting(figure::isOpenBelow).containsExactly(false, true);
        assertThat(figure.items()).extracting(figure::isOpenAbove).containsExactly(false, true);
    }

    @Test
    void noPointIsDrawnWhereAnArrowStandsForTheEstimate() {
        Item item = ratio(0, null, null);
        Figure forest = figure(Kind.FOREST, item);

        assertThat(forest.shape(item)).isEmpty();
        assertThat(forest.isOpenBelow(item)).isTrue();
        assertThat(forest.hasArrows()).isTrue();
        assertThat(forest.marks()).isEmpty();
        assertThat(figure(Kind.INTERVALS, item).shape(item)).contains(Shape.TRIANGLE);
        assertThat(figure(Kind.INTERVALS, item).hasArrows()).isFalse();
    }

    @Test
    void shapesTellSeriesWhereThereAreSeveral() {
        List<Item> items = new ArrayList<>();
        for (int number = 0; number < 5; number++) {
            items.add(new Item("label", "series " + number, 1L, 9L, 0.1, null, null, Mark.HIGH, ""));
        }
        Figure figure = figure(Kind.INTERVALS, items.toArray(Item[]::new));

        assertThat(items)
                .extracting(item -> figure.shape(item).orElseThrow())
                .containsExactly(Shape.CIRCLE, Shape.SQUARE, Shape.DIAMOND, Shape.TRIANGLE, Shape.CIRCLE);
        assertThat(figure.marks()).isEmpty();
        assertThat(figure(Kind.INTERVALS, items.get(0)).marks()).containsExactly(Mark.HIGH);
    }

    private static Item ratio(double estimate, @Nullable Double lower, @Nullable Double upper) {
        return new Item("label", "", null, null, estimate, lower, upper, Mark.HIGH, "");
    }

    private static Figure figure(Kind kind, Item... items) {
        return new Figure(kind, Unit.RATIO, "", "", List.of(items), List.of(), List.of());
    }
}
