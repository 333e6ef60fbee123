package entrapment.registry.reports.question;

import entrapment.registry.stats.ProportionEstimate;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.ser.std.StdSerializer;

/** Writes an estimate of what released a device: its events are {@code released} (contract, section 5). */
public final class Released extends StdSerializer<ProportionEstimate> {

    public Released() {
        super(ProportionEstimate.class);
    }

    @Override
    public void serialize(ProportionEstimate share, JsonGenerator generator, SerializationContext context) {
        generator.writeStartObject();
        generator.writeNumberProperty("released", share.events());
        generator.writeNumberProperty("of", share.of());
        context.defaultSerializeProperty("estimate", share.estimate(), generator);
        context.defaultSerializeProperty("lower", share.lower(), generator);
        context.defaultSerializeProperty("upper", share.upper(), generator);
        generator.writeEndObject();
    }
}
