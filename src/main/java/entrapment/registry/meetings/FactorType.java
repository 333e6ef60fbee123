package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** Where a contributing factor lies. */
public enum FactorType implements Code {
    PATIENT("patient", "Patient", "Condition, anatomy, communication with the patient."),
    TASK("task", "Task", "Guidelines and protocols: whether there are any, clear and used."),
    INDIVIDUAL("individual", "Individual", "Knowledge, skill and health of staff; never of a named person."),
    TEAM("team", "Team", "Communication, supervision, asking for help."),
    EQUIPMENT("equipment", "Equipment", "Devices and bail-out equipment: availability, fitness, sizes."),
    ENVIRONMENT("environment", "Work environment", "Staffing, workload, time of day, room."),
    ORGANISATION("organisation", "Organisation", "Policy, money, priorities, safety culture.");

    private final Coding coding;

    FactorType(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "Vincent C, Taylor-Adams S, Stanhope N, BMJ 1998;316:1154-1157");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
