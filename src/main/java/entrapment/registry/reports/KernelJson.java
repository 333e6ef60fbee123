package entrapment.registry.reports;

import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.Note;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.JacksonModule;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.ser.std.StdSerializer;
import tools.jackson.databind.ser.std.ToStringSerializer;

/** How values of the kernel, which knows no JSON, are written: a note in words with its code behind it. */
@Configuration(proxyBeanMethods = false)
class KernelJson {

    @Bean
    JacksonModule kernel() {
        return new SimpleModule("kernel")
                .addSerializer(Note.class, new NoteSerializer())
                .addSerializer(DiscordanceAnalysis.Status.class, ToStringSerializer.instance);
    }

    private static final class NoteSerializer extends StdSerializer<Note> {

        NoteSerializer() {
            super(Note.class);
        }

        @Override
        public void serialize(Note note, JsonGenerator generator, SerializationContext context) {
            generator.writeString(note.text() + " (" + note.code() + ")");
        }
    }
}
