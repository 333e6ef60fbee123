package entrapment.registry.cases;

import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import entrapment.registry.vocabulary.AccessSite;
import entrapment.registry.vocabulary.AgeBand;
import entrapment.registry.vocabulary.Angulation;
import entrapment.registry.vocabulary.Calcification;
import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.DeviceSize;
import entrapment.registry.vocabulary.Dissection;
import entrapment.registry.vocabulary.Enabler;
import entrapment.registry.vocabulary.Fractured;
import entrapment.registry.vocabulary.Fragment;
import entrapment.registry.vocabulary.GuideFrench;
import entrapment.registry.vocabulary.Haemodynamics;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Mechanism;
import entrapment.registry.vocabulary.MiDefinition;
import entrapment.registry.vocabulary.OperatorStage;
import entrapment.registry.vocabulary.Perforation;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Phase;
import entrapment.registry.vocabulary.Position;
import entrapment.registry.vocabulary.Presentation;
import entrapment.registry.vocabulary.ProcedureEnd;
import entrapment.registry.vocabulary.Release;
import entrapment.registry.vocabulary.Result;
import entrapment.registry.vocabulary.Segment;
import entrapment.registry.vocabulary.Sex;
import entrapment.registry.vocabulary.ShockStage;
import entrapment.registry.vocabulary.StentLayers;
import entrapment.registry.vocabulary.Technique;
import entrapment.registry.vocabulary.TimiFlow;
import entrapment.registry.vocabulary.Tortuosity;
import entrapment.registry.vocabulary.TotalOcclusion;
import entrapment.registry.vocabulary.Urgency;
import entrapment.registry.vocabulary.Vessel;
import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * One device that could not be withdrawn by the usual gentle pull: what stuck, where, in what state, each retrieval
 * step in the order tried, what came out, how the patient did.
 *
 * @param procedureKey ties together several devices entrapped in one procedure; opaque, as a case key is
 * @param attempts in the order tried; at least one
 */
public record EntrapmentCase(
        Period period,
        @Nullable String procedureKey,
        Patient patient,
        Procedure procedure,
        Lesion lesion,
        Device device,
        Event event,
        List<Attempt> attempts,
        Outcome outcome) {

    /** More attempts than this cannot be sent of one case. */
    public static final int MOST_ATTEMPTS = 12;

    private static final long LONGEST_MINUTES = 1_440;

    public record Patient(AgeBand ageBand, Sex sex) {

        static Patient read(Fields fields) {
            return new Patient(
                    fields.code("ageBand", AgeBand.class, AgeBand.UNKNOWN), fields.code("sex", Sex.class, Sex.UNKNOWN));
        }
    }

    public record Procedure(
            Presentation presentation,
            Urgency urgency,
            AccessSite access,
            GuideFrench guideFrench,
            OperatorStage operatorStage) {

        static Procedure read(Fields fields) {
            return new Procedure(
                    fields.code("presentation", Presentation.class, Presentation.UNKNOWN),
                    fields.code("urgency", Urgency.class, Urgency.UNKNOWN),
                    fields.code("access", AccessSite.class, AccessSite.UNKNOWN),
                    fields.code("guideFrench", GuideFrench.class, GuideFrench.UNKNOWN),
                    fields.code("operatorStage", OperatorStage.class, OperatorStage.UNKNOWN));
        }
    }

    public record Lesion(
            Vessel vessel,
            Position position,
            @Nullable Segment segment,
            Calcification calcification,
            Tortuosity tortuosity,
            Angulation angulation,
            TotalOcclusion totalOcclusion,
            StentLayers stentLayers) {

        static Lesion read(Fields fields) {
            return new Lesion(
                    fields.code("vessel", Vessel.class, Vessel.UNKNOWN),
                    fields.code("position", Position.class, Position.UNKNOWN),
                    fields.has("segment") ? fields.requiredCode("segment", Segment.class) : null,
                    fields.code("calcification", Calcification.class, Calcification.UNKNOWN),
                    fields.code("tortuosity", Tortuosity.class, Tortuosity.UNKNOWN),
                    fields.code("angulation", Angulation.class, Angulation.UNKNOWN),
                    fields.code("totalOcclusion", TotalOcclusion.class, TotalOcclusion.UNKNOWN),
                    fields.code("stentLayers", StentLayers.class, StentLayers.UNKNOWN));
        }
    }

    /**
     * What stuck.
     *
     * @param deviceSizeMm millimetres: burr or crown diameter, balloon or stent nominal diameter, wire diameter
     * @param deviceIdentifier the UDI device identifier alone, a GTIN-14
     */
    public record Device(
            DeviceClass deviceClass,
            @Nullable BigDecimal deviceSizeMm,
            @Nullable String deviceIdentifier) {

        static Device read(Fields fields) {
            return new Device(
                    fields.requiredCode("deviceClass", DeviceClass.class),
                    fields.decimal("deviceSizeMm", 2, DeviceSize.SMALLEST_MM, DeviceSize.LARGEST_MM),
                    fields.text("deviceIdentifier"));
        }
    }

    public record Event(
            Mechanism mechanism,
            Phase phase,
            Haemodynamics haemodynamics,
            ShockStage shockStage,
            TimiFlow timiFlow,
            Fractured fractured) {

        static Event read(Fields fields) {
            return new Event(
                    fields.code("mechanism", Mechanism.class, Mechanism.UNKNOWN),
                    fields.code("phase", Phase.class, Phase.UNKNOWN),
                    fields.requiredCode("haemodynamics", Haemodynamics.class),
                    fields.code("shockStage", ShockStage.class, ShockStage.UNKNOWN),
                    fields.code("timiFlow", TimiFlow.class, TimiFlow.UNKNOWN),
                    fields.code("fractured", Fractured.class, Fractured.UNKNOWN));
        }
    }

    /** One retrieval step. */
    public record Attempt(
            Technique technique, Result result, @Nullable Long minutesFromEntrapment, Set<Enabler> enablers) {

        boolean released() {
            return result == Result.RELEASED;
        }

        static Attempt read(Fields fields) {
            return new Attempt(
                    fields.requiredCode("technique", Technique.class),
                    fields.requiredCode("result", Result.class),
                    fields.whole("minutesFromEntrapment", 0, LONGEST_MINUTES),
                    fields.codes("enablers", Enabler.class));
        }
    }

    public record Outcome(
            Release release,
            Fragment fragment,
            Dissection dissection,
            Perforation perforation,
            TimiFlow finalTimiFlow,
            Set<Complication> complications,
            MiDefinition miDefinition,
            Harm harm,
            ProcedureEnd procedureEnd) {

        static Outcome read(Fields fields) {
            return new Outcome(
                    fields.requiredCode("release", Release.class),
                    fields.code("fragment", Fragment.class, Fragment.UNKNOWN),
                    fields.code("dissection", Dissection.class, Dissection.UNKNOWN),
                    fields.code("perforation", Perforation.class, Perforation.UNKNOWN),
                    fields.code("finalTimiFlow", TimiFlow.class, TimiFlow.UNKNOWN),
                    fields.codes("complications", Complication.class),
                    fields.code("miDefinition", MiDefinition.class, MiDefinition.UNKNOWN),
                    fields.requiredCode("harm", Harm.class),
                    fields.code("procedureEnd", ProcedureEnd.class, ProcedureEnd.UNKNOWN));
        }
    }

    boolean had(Complication complication) {
        return outcome.complications().contains(complication);
    }

    boolean tried(Technique technique) {
        return attempts.stream().anyMatch(attempt -> attempt.technique() == technique);
    }

    /** Whether the last attempt was like this. */
    boolean endedWith(Predicate<Attempt> like) {
        return !attempts.isEmpty() && like.test(attempts.get(attempts.size() - 1));
    }

    /** Reads the fields alone; the rules that tie them together are {@link CaseRule}s. */
    static EntrapmentCase read(Fields fields, Period latest) {
        Period period = fields.period("period", latest);
        String procedureKey = fields.text("procedureKey");
        if (procedureKey != null) {
            Identifying.checkKey(fields, "procedureKey", procedureKey);
        }
        EntrapmentCase read = new EntrapmentCase(
                period,
                procedureKey,
                fields.object("patient", Patient::read),
                fields.object("procedure", Procedure::read),
                fields.object("lesion", Lesion::read),
                fields.object("device", Device::read),
                fields.object("event", Event::read),
                fields.objects("attempts", MOST_ATTEMPTS, Attempt::read),
                fields.object("outcome", Outcome::read));
        if (read.attempts().isEmpty() && fields.sound("/attempts")) {
            fields.refuse("attempts", "missing", "attempts must have at least one entry, in the order tried");
        }
        return read;
    }
}
