package entrapment.registry.vocabulary;

/**
 * Sources that several codes share, each spelled once. A citation marked "[from memory]" was not looked up when the
 * definition was written, in whole or in part.
 */
final class Sources {

    /** A rule of the trade that no one publication owns. */
    static final String COMMON_PRACTICE = "common practice, no single source";

    /** This registry's own coding decision. */
    static final String CONVENTION = "registry convention";

    static final String AHA_ACC = "Ryan TJ et al., Circulation 1988;78:486 [from memory]";
    static final String ARC_2 = "Garcia-Garcia HM et al., Circulation 2018;137:2635 [from memory]";
    static final String BARC = "Mehran R et al., Circulation 2011;123:2736 [from memory]";
    static final String CALCIFICATION = "Mintz GS et al., Circulation 1995;91:1959";
    static final String ELLIS = "Ellis SG et al., Circulation 1994;90:2725";
    static final String NHLBI = "NHLBI classification; Huber MS et al., Am J Cardiol 1991;68:467 [from memory]";
    static final String SCAI_MI = "Moussa ID et al., J Am Coll Cardiol 2013;62:1563 [from memory]";
    static final String SCAI_SHOCK = "Naidu SS et al., J Am Coll Cardiol 2022;79:933 [from memory]";
    static final String SYNTAX = "Sianos G et al., EuroIntervention 2005;1:219 [from memory]";
    static final String TIMI = "Chesebro et al., Circulation 1987;76:142";
    static final String UDMI = "Thygesen K et al., Circulation 2018;138:e618 [from memory]";
    static final String WHO_HARM = "WHO, Conceptual Framework for the ICPS v1.1, 2009 (WHO/IER/PSP/2010.2)";
    static final String WHO_HARM_READ =
            "WHO, Conceptual Framework for the ICPS v1.1, 2009 (WHO/IER/PSP/2010.2); examples: registry convention";

    private Sources() {}
}
