package entrapment.registry.vocabulary.web;

import entrapment.registry.vocabulary.Code;

/** One code with all that explains it. */
record CodeView(String code, String label, String definition, String source) {

    static CodeView of(Code code) {
        return new CodeView(code.code(), code.label(), code.definition(), code.source());
    }
}
