package splitledger.handbook;

import java.util.ArrayList;
import java.util.List;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.BulletList;
import org.commonmark.node.Code;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.HardLineBreak;
import org.commonmark.node.Heading;
import org.commonmark.node.IndentedCodeBlock;
import org.commonmark.node.Link;
import org.commonmark.node.ListItem;
import org.commonmark.node.Node;
import org.commonmark.node.OrderedList;
import org.commonmark.node.Paragraph;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;

/**
 * A page as lines of plain text. Formulas stay as they are written; everything else is wrapped. A
 * link shows how to have the topic explained that it leads to.
 */
public final class PageText {
    private static final String STEP = "  ";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private PageText(int width) {
        this.width = width;
    }

    /**
     * The page, title first.
     *
     * @param width of a line in characters; a word or a formula that is longer is not broken
     */
    public static List<String> of(HandbookPage page, int width) {
        final PageText text = new PageText(width);
        text.underlined(page.title(), '=');
        page.tree().accept(text.new Blocks(""));
        return List.copyOf(text.lines);
    }

    /**
     * A text broken into lines at its blanks.
     *
     * @param first what the first line begins with
     * @param rest what the others begin with
     */
    public static List<String> wrapped(String text, String first, String rest, int width) {
        final List<String> lines = new ArrayList<>();
        for (String piece : text.split("\n", -1)) {
            StringBuilder line = new StringBuilder(lines.isEmpty() ? first : rest);
            boolean begun = false;
            for (String word : piece.strip().split(" +", -1)) {
                if (begun && length(line) + 1 + length(word) > width) {
                    lines.add(line.toString());
                    line = new StringBuilder(rest);
                    begun = false;
                }
                line.append(begun ? " " : "").append(word);
                begun = true;
            }
            lines.add(line.toString());
        }
        return lines;
    }

    private static int length(CharSequence text) {
        return text.toString().codePointCount(0, text.length());
    }

    private void underlined(String title, char mark) {
        final List<String> words = wrapped(title, "", "", width);
        lines.addAll(words);
        final int longest = words.stream().mapToInt(PageText::length).max().orElse(0);
        lines.add(String.valueOf(mark).repeat(longest));
    }

    private void gap() {
        if (!lines.isEmpty() && !lines.get(lines.size() - 1).isEmpty()) {
            lines.add("");
        }
    }

    /** Blocks at one depth. */
    private final class Blocks extends AbstractVisitor {
        private final String indent;

        /** What the next line begins with in place of the indent; empty for none. */
        private String mark = "";

        Blocks(String indent) {
            this.indent = indent;
        }

        @Override
        public void visit(Heading heading) {
            gap();
            if (heading.getLevel() <= 2) {
                underlined(inline(heading), '-');
            } else {
                lines.addAll(wrapped(inline(heading) + ":", "", "", width));
            }
        }

        @Override
        public void visit(Paragraph paragraph) {
            if (mark.isEmpty() && !isBelowHeading(paragraph)) {
                gap();
            }
            lines.addAll(wrapped(inline(paragraph), mark.isEmpty() ? indent : mark, indent, width));
            mark = "";
        }

        /** A paragraph follows its small heading without a gap. */
        private boolean isBelowHeading(Paragraph paragraph) {
            return paragraph.getPrevious() instanceof Heading h && h.getLevel() > 2;
        }

        @Override
        public void visit(BulletList list) {
            gap();
            items(list, i -> "- ");
        }

        @Override
        public void visit(OrderedList list) {
            gap();
            items(list, i -> (i + 1) + ". ");
        }

        private void items(Node list, java.util.function.IntFunction<String> bullet) {
            int i = 0;
            for (Node item = list.getFirstChild(); item != null; item = item.getNext()) {
                final String begin = bullet.apply(i);
                final Blocks inside = new Blocks(indent + STEP + " ".repeat(begin.length()));
                inside.mark = indent + STEP + begin;
                inside.visitChildren((ListItem) item);
                i++;
            }
        }

        @Override
        public void visit(FencedCodeBlock code) {
            formula(code.getLiteral());
        }

        @Override
        public void visit(IndentedCodeBlock code) {
            formula(code.getLiteral());
        }

        private void formula(String literal) {
            gap();
            literal.lines().forEach(line -> lines.add(indent + STEP + STEP + line));
        }
    }

    private static String inline(Node block) {
        final StringBuilder words = new StringBuilder();
        block.accept(
                new AbstractVisitor() {
                    @Override
                    public void visit(Text text) {
                        words.append(text.getLiteral());
                    }

                    @Override
                    public void visit(Code code) {
                        words.append(code.getLiteral());
                    }

                    @Override
                    public void visit(SoftLineBreak line) {
                        words.append(' ');
                    }

                    @Override
                    public void visit(HardLineBreak line) {
                        words.append('\n');
                    }

                    @Override
                    public void visit(Link link) {
                        final String target = HandbookPage.target(link);
                        final int from = words.length();
                        visitChildren(link);
                        if (Handbook.plain(words.substring(from)).equals(target)) {
                            words.setLength(from);
                            words.append("'explain ").append(target).append('\'');
                        } else {
                            words.append(" ('explain ").append(target).append("')");
                        }
                    }
                });
        return words.toString();
    }
}
