package planted.exports;

import org.apache.poi.xslf.usermodel.XMLSlideShow;

/** Slides drawn outside of their room. */
class Picture {

    XMLSlideShow show() {
        return new XMLSlideShow();
    }
}
