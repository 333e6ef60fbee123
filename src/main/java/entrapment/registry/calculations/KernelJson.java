package entrapment.registry.calculations;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Direction;
import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.Note;
import entrapment.registry.stats.Separation;
import entrapment.registry.stats.SuppressionAuditAnalysis;
import java.util.List;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.JacksonModule;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.ser.std.StdSerializer;
import tools.jackson.databind.ser.std.ToStringSerializer;

/** How values of the kernel, which knows no JSON, are written: a note in words with its code behind it, an enum in words. */
@Configuration(proxyBeanMethods = false)
public class KernelJson {

    private static final List<Class<? extends Enum<?>>> WORDS = List.of(
            ChartSignal.class,
            Direction.class,
            DiscordanceAnalysis.Status.class,
            FunnelAnalysis.Position.class,
            Separation.class);

    @Bean
    public JacksonModule kernel() {
        SimpleModule module = new SimpleModule("kernel").addSerializer(Note.class, new NoteSerializer());
        WORDS.forEach(words -> module.addSerializer(words, ToStringSerializer.instance));
        module.setMixInAnnotation(Confidence.class, LevelAlone.class);
        module.setMixInAnnotation(SuppressionAuditAnalysis.SuppressedCell.class, ProtectedSpelling.class);
        return module;
    }

    /** A level of confidence is its number. */
    interface LevelAlone {

        @JsonValue
        double level();
    }

    /** A word that Java keeps for itself. */
    interface ProtectedSpelling {

        @JsonProperty("protected")
        boolean isProtected();
    }

    private static final class NoteSerializer extends StdSerializer<Note> {

        NoteSerializer() {
            super(Note.class);
        }

        @Override
        public void serialize(Note note, JsonGenerator generator, SerializationContext context) {
            generator.writeString(note.withCode());
        }
    }
}
