package entrapment.registry.exports.slides;

import java.awt.Dimension;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.poi.ooxml.POIXMLDocument;
import org.apache.poi.ooxml.POIXMLDocumentPart;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.openxml4j.opc.OPCPackage;
import org.apache.poi.openxml4j.opc.PackageRelationship;
import org.apache.poi.openxml4j.opc.PackageRelationshipTypes;
import org.apache.poi.xslf.usermodel.SlideLayout;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFChart;
import org.apache.poi.xslf.usermodel.XSLFShape;
import org.apache.poi.xslf.usermodel.XSLFSheet;
import org.apache.poi.xslf.usermodel.XSLFSlideLayout;
import org.apache.poi.xslf.usermodel.XSLFSlideMaster;
import org.apache.poi.xslf.usermodel.XSLFTextShape;
import org.openxmlformats.schemas.drawingml.x2006.main.CTColor;
import org.openxmlformats.schemas.drawingml.x2006.main.CTColorScheme;
import org.openxmlformats.schemas.drawingml.x2006.main.CTFontScheme;
import org.openxmlformats.schemas.drawingml.x2006.main.STColorSchemeIndex;
import org.openxmlformats.schemas.presentationml.x2006.main.CTShape;

/** Writes a deck as Office slides whose charts and tables can be edited; the same deck always gives the same bytes. */
public final class PptxWriter {

    /** Its metric is that of fonts on every system, so that the room computed for text is the room it takes. */
    private static final String FONT = "Arial";

    private static final String AUTHOR = "Entrapment registry";

    private PptxWriter() {}

    /** The whole file. */
    public static byte[] write(Deck deck) {
        Palette palette = Palette.of(deck.dark());
        try (XMLSlideShow show = new XMLSlideShow()) {
            XSLFSlideMaster master = show.getSlideMasters().get(0);
            widen(show, master);
            theme(master, deck.dark());
            XSLFSlideLayout layout = master.getLayout(SlideLayout.TITLE_ONLY);
            deck.slides().forEach(slide -> new SlideDrawing(show, layout, palette, slide).draw());
            properties(show, deck);
            var about = show.getProperties().getExtendedProperties().getUnderlyingProperties();
            about.setApplication(AUTHOR);
            about.setPresentationFormat("Widescreen");
            removeThumbnail(show.getPackage());
            for (POIXMLDocumentPart part : charts(show)) {
                properties(((XSLFChart) part).getWorkbook(), deck);
            }
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            show.write(bytes);
            return StableZip.of(bytes.toByteArray());
        } catch (IOException | InvalidFormatException impossible) {
            throw new UncheckedIOException(new IOException(impossible));
        }
    }

    /** A picture of the empty slide that POI starts from. */
    private static void removeThumbnail(OPCPackage file) {
        for (PackageRelationship thumbnail : file.getRelationshipsByType(PackageRelationshipTypes.THUMBNAIL)) {
            file.removePart(file.getPart(thumbnail));
            file.removeRelationship(thumbnail.getId());
        }
    }

    private static List<POIXMLDocumentPart> charts(XMLSlideShow show) {
        return show.getSlides().stream()
                .flatMap(slide -> slide.getRelations().stream())
                .filter(XSLFChart.class::isInstance)
                .toList();
    }

    private static void properties(POIXMLDocument document, Deck deck) {
        var properties = document.getProperties().getCoreProperties();
        properties.setTitle(deck.title());
        properties.setCreator(AUTHOR);
        try {
            properties.setCreated(deck.made().toString());
            properties.setModified(deck.made().toString());
        } catch (InvalidFormatException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** The slides that POI starts from are 4:3. */
    private static void widen(XMLSlideShow show, XSLFSlideMaster master) {
        Dimension before = show.getPageSize();
        show.setPageSize(new Dimension(SlideFrame.WIDTH, SlideFrame.HEIGHT));
        double wider = SlideFrame.WIDTH / before.getWidth();
        widen(master, wider);
        for (XSLFSlideLayout layout : master.getSlideLayouts()) {
            widen(layout, wider);
        }
    }

    private static void widen(XSLFSheet sheet, double wider) {
        for (XSLFShape shape : sheet.getShapes()) {
            if (shape instanceof XSLFTextShape text
                    && ((CTShape) shape.getXmlObject()).getSpPr().isSetXfrm()) {
                Rectangle2D place = text.getAnchor();
                text.setAnchor(new Rectangle2D.Double(
                        place.getX() * wider, place.getY(), place.getWidth() * wider, place.getHeight()));
            }
        }
    }

    /** Colours and font of what somebody adds to the deck later. */
    private static void theme(XSLFSlideMaster master, boolean dark) {
        var elements = master.getTheme().getXmlObject().getThemeElements();
        CTFontScheme fonts = elements.getFontScheme();
        fonts.getMajorFont().getLatin().setTypeface(FONT);
        fonts.getMinorFont().getLatin().setTypeface(FONT);
        Palette light = Palette.of(false);
        Palette inks = Palette.of(dark);
        CTColorScheme colors = elements.getClrScheme();
        set(colors.getLt1(), light.ground());
        set(colors.getDk1(), dark ? inks.ground() : light.text());
        set(colors.getLt2(), dark ? inks.text() : light.rule());
        set(colors.getDk2(), light.muted());
        set(colors.getAccent1(), inks.first());
        set(colors.getAccent2(), inks.second());
        set(colors.getAccent3(), inks.third());
        set(colors.getAccent4(), inks.muted());
        set(colors.getAccent5(), inks.step(0, 1, 3));
        set(colors.getAccent6(), inks.step(0, 2, 3));
        if (dark) {
            var map = master.getXmlObject().getClrMap();
            map.setBg1(STColorSchemeIndex.DK_1);
            map.setTx1(STColorSchemeIndex.LT_1);
            map.setBg2(STColorSchemeIndex.DK_2);
            map.setTx2(STColorSchemeIndex.LT_2);
        }
    }

    private static void set(CTColor color, String hex) {
        if (color.isSetSysClr()) {
            color.unsetSysClr();
        }
        (color.isSetSrgbClr() ? color.getSrgbClr() : color.addNewSrgbClr()).setVal(Palette.bytes(hex));
    }
}
