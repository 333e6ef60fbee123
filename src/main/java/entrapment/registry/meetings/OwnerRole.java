package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** Who sees to an action: a role, never a person. */
public enum OwnerRole implements Code {
    LAB_LEAD("Head of the cath lab", "Runs the cath lab."),
    OPERATOR_LEAD("Lead operator", "Speaks for the operators."),
    NURSING_LEAD("Lead nurse", "Speaks for the nurses of the lab."),
    TECHNOLOGIST_LEAD("Lead technologist", "Speaks for the technologists of the lab."),
    TRAINING_LEAD("Head of training", "Plans the training of operators and staff."),
    EQUIPMENT_LEAD("Equipment lead", "Orders and stocks devices and bail-out equipment."),
    QUALITY_LEAD("Quality lead", "Looks after quality and safety."),
    DATA_LEAD("Data lead", "Looks after what is sent to the registry.");

    private final Coding coding;

    OwnerRole(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
