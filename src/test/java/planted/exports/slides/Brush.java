package planted.exports.slides;

/** Public, and only the drawing of slides needs it. */
public class Brush {}
