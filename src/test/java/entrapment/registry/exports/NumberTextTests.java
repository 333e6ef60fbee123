package entrapment.registry.exports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumberTextTests {

    @ParameterizedTest
    @CsvSource({
        "0, 0",
        "-0.0, 0",
        "1, 1",
        "0.95, 0.95",
        "0.1, 0.1",
        "-2.5, -2.5",
        "100, 100",
        "1842, 1842",
        "0.3333333333333333, 0.3333333333",
        "0.6666666666666666, 0.6666666667",
        "0.06238639953073630, 0.06238639953",
        "123456.78901234, 123456.789",
        "12345678901, 12345678900",
        "1.0000000001, 1",
        "9.99999999996, 10"
    })
    void writesAtMostTenSignificantFigures(double value, String text) {
        assertThat(NumberText.exact(value)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({
        "1e-26, 1E-26",
        "3.53296962914309e-27, 3.532969629E-27",
        "2.2250738585072014e-308, 2.225073859E-308",
        "4.9e-324, 4.940656458E-324",
        "1.5e300, 1.5E+300",
        "1e-14, 0.00000000000001",
        "1e-16, 0.0000000000000001",
        "1e-17, 1E-17",
        "100000000000000, 100000000000000",
        "1e15, 1E+15"
    })
    void writesAVerySmallOrLargeNumberWithAnExponent(double value, String text) {
        assertThat(NumberText.exact(value)).isEqualTo(text);
    }

    @Test
    void writesInfinityAsTheContractDoes() {
        assertThat(NumberText.exact(Double.POSITIVE_INFINITY)).isEqualTo("Inf");
        assertThat(NumberText.exact(Double.NEGATIVE_INFINITY)).isEqualTo("-Inf");
    }

    @Test
    void writesNothingThatAnotherProgramReadsAsAnotherNumber() {
        Random random = new Random(20310401);
        for (int round = 0; round < 20_000; round++) {
            double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(-40, 40));
            String text = NumberText.exact(value);

            assertThat(Double.parseDouble(text)).as(text).isCloseTo(value, within(Math.abs(value) * 5.1e-10));
            assertThat(text.replaceAll("E.*", "")
                            .replaceAll("[-.]|^-?0\\.0*", "")
                            .replaceAll("^0+|0+$", ""))
                    .as("figures of %s", text)
                    .hasSizeLessThanOrEqualTo(10);
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"0|0", "7|7", "999|999", "1000|1,000", "1842|1,842", "2147483648|2,147,483,648", "-1500|-1,500"})
    void groupsTheThousandsOfACount(long value, String text) {
        assertThat(NumberText.count(value)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0.0",
        "1, 1000.0",
        "0.0038002171552660, 3.8",
        "0.00184203863298135, 1.8",
        "0.101351351351351, 101.4",
        "0.00095, 0.95",
        "0.000123, 0.12",
        "0.0009999, 1.00",
        "0.001, 1.0"
    })
    void writesAProportionPerThousandWithTwoPlacesBelowOne(double proportion, String text) {
        assertThat(NumberText.perThousand(proportion)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "1, 100", "0.5, 50.0", "0.4166666666666667, 41.7", "0.193260313658757, 19.3", "0.9304, 93.0"})
    void writesAProportionInPerCent(double proportion, String text) {
        assertThat(NumberText.percent(proportion)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({
        "3.56527093596059, 3.57",
        "0.93408347160767, 0.93",
        "9.994, 9.99",
        "10, 10.0",
        "27.2257053291536, 27.2",
        "99.94, 99.9",
        "100, 100",
        "308.556771581155, 309",
        "0, 0.00",
        "Infinity, no upper limit"
    })
    void writesARatioWithFewerPlacesTheLargerItIs(double ratio, String text) {
        assertThat(NumberText.ratio(ratio)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({
        "0, < 0.001",
        "3.53296962914309e-27, < 0.001",
        "0.00099999, < 0.001",
        "0.001, = 0.001",
        "0.0467878633782524, = 0.047",
        "0.757379474576359, = 0.757",
        "1, = 1.000"
    })
    void neverWritesAPValueOfNought(double pValue, String text) {
        assertThat(NumberText.pValue(pValue)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"0.95, 95", "0.9, 90", "0.998, 99.8", "0.9999, 99.99", "0.5, 50", "0.99, 99", "0.68, 68"})
    void writesALevelOfConfidenceInPerCent(double confidence, String text) {
        assertThat(NumberText.level(confidence)).isEqualTo(text);
    }

    @Test
    void writesTheSameUnderEveryLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(NumberText.count(1_842)).isEqualTo("1,842");
            assertThat(NumberText.perThousand(0.0038)).isEqualTo("3.8");
            Locale.setDefault(Locale.GERMANY);
            assertThat(NumberText.count(1_842)).isEqualTo("1,842");
            assertThat(NumberText.exact(0.25)).isEqualTo("0.25");
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void writesEachKindOfCell() {
        assertThat(NumberText.cell(null)).isEmpty();
        assertThat(NumberText.cell("none")).isEqualTo("none");
        assertThat(NumberText.cell(12345678901234L)).isEqualTo("12345678901234");
        assertThat(NumberText.cell(1.0 / 3)).isEqualTo("0.3333333333");
        assertThat(NumberText.cell(true)).isEqualTo("true");
    }
}
