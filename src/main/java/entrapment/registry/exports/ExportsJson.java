package entrapment.registry.exports;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.JacksonModule;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.ser.std.StdSerializer;

/** Decimal numbers in JSON are the same text as in CSV: one format, {@link NumberText#exact}. */
@Configuration(proxyBeanMethods = false)
class ExportsJson {

    @Bean
    JacksonModule figures() {
        return new SimpleModule("figures")
                .addSerializer(Double.class, new FigureSerializer())
                .addSerializer(double.class, new FigureSerializer());
    }

    private static final class FigureSerializer extends StdSerializer<Double> {

        FigureSerializer() {
            super(Double.class);
        }

        @Override
        public void serialize(Double value, JsonGenerator generator, SerializationContext context) {
            if (value.isInfinite()) {
                generator.writeString(NumberText.exact(value));
            } else {
                generator.writeNumber(NumberText.exact(value));
            }
        }
    }
}
