package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** Who sees to an action: a role, never a person. */
public enum OwnerRole implements Code {
    LAB_LEAD("lab-lead", "Head of the cath lab", "Runs the cath lab."),
    OPERATOR_LEAD("operator-lead", "Lead operator", "Speaks for the operators."),
    NURSING_LEAD("nursing-lead", "Lead nurse", "Speaks for the nurses of the lab."),
    TECHNOLOGIST_LEAD("technologist-lead", "Lead technologist", "Speaks for the technologists of the lab."),
    TRAINING_LEAD("training-lead", "Head of training", "Plans the training of operators and staff."),
    EQUIPMENT_LEAD("equipment-lead", "Equipment lead", "Orders and stocks devices and bail-out equipment."),
    QUALITY_LEAD("quality-lead", "Quality lead", "Looks after quality and safety."),
    DATA_LEAD("data-lead", "Data lead", "Looks after what is sent to the registry.");

    private final Coding coding;

    OwnerRole(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
