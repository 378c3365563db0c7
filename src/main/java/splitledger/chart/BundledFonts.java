package splitledger.chart;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jfree.chart.text.TextUtils;
import splitledger.base.ScratchFile;

/**
 * The open fonts that every chart is measured with, so that a chart does not depend on what is
 * installed. AWT throws on a machine without any font even where only a bundled one is used, unless
 * it finds a font configuration; an empty one is given to it before it is touched. (Windows and
 * macOS always have fonts and their own configuration, so they are left alone.)
 */
public final class BundledFonts {
    private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/";
    private static final String CONFIGURATION = "sun.awt.fontconfig";

    private BundledFonts() {}

    /** Loaded on first use, after {@link #prepare()}. */
    private static final class Loaded {
        static final Font PLAIN = load("DejaVuSans.ttf");
        static final Font BOLD = load("DejaVuSans-Bold.ttf");
    }

    /** Makes AWT usable; must be called before any class of AWT is. */
    public static void prepare() {
        Prepared.nothing();
    }

    /** The upright font at a size in pixels of the chart. */
    static Font plain(float size) {
        return Loaded.PLAIN.deriveFont(size);
    }

    /** The bold font at a size in pixels of the chart. */
    static Font bold(float size) {
        return Loaded.BOLD.deriveFont(Font.BOLD, size);
    }

    /** Its initialisation runs once, whichever thread comes first. */
    private static final class Prepared {
        static {
            if (System.getProperty("java.awt.headless") == null) {
                System.setProperty("java.awt.headless", "true");
            }
            final String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
            final boolean hasFonts = system.startsWith("windows") || system.startsWith("mac");
            if (!hasFonts && System.getProperty(CONFIGURATION) == null) {
                System.setProperty(CONFIGURATION, emptyConfiguration());
            }
            // Upright axis labels stay text, which can be searched, instead of outlines of glyphs.
            TextUtils.setUseDrawRotatedStringWorkaround(false);
        }

        static void nothing() {}

        private static String emptyConfiguration() {
            final String text = "version=1\nsequence.allfonts=default\n";
            try {
                return ScratchFile.holding(
                        "fontconfig.properties", text.getBytes(StandardCharsets.US_ASCII));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /**
     * A font file, to be closed by the caller.
     *
     * @param name of the file, e.g. {@code DejaVuSans.ttf}
     * @throws IllegalStateException if there is no such file
     */
    public static InputStream open(String name) {
        final InputStream in = BundledFonts.class.getResourceAsStream(FOLDER + name);
        if (in == null) {
            throw new IllegalStateException("the bundled font " + name + " is missing");
        }
        return in;
    }

    private static Font load(String name) {
        try (InputStream in = open(name)) {
            return Font.createFont(Font.TRUETYPE_FONT, in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (FontFormatException e) {
            throw new IllegalStateException("the bundled font " + name + " cannot be read", e);
        }
    }
}
