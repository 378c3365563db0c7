package splitledger.intake;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;

/**
 * Looks through a workbook before it is read: how large each part becomes when it is unpacked, that
 * no part declares entities, and which cells of each sheet are merged. Nothing is kept in memory
 * but a few kilobytes.
 */
final class WorkbookGuard {
    private static final int BUFFER = 1 << 16;
    private static final int OVERLAP = 64;
    private static final int MOST_MERGED = 1000;
    private static final int MOST_RELATIONS = 1 << 20;
    private static final String RELATIONS = "xl/_rels/workbook.xml.rels";
    private static final String TEXTS = "sharedstrings.xml";
    private static final Pattern MERGED =
            Pattern.compile("mergeCell\\s+ref=\"([A-Z]{1,3})(\\d{1,7}):([A-Z]{1,3})(\\d{1,7})\"");
    private static final Pattern RELATION = Pattern.compile("<(?:\\w+:)?Relationship\\s([^>]*)>");
    private static final Pattern ID = Pattern.compile("\\bId=\"([^\"]*)\"");
    private static final Pattern TARGET = Pattern.compile("\\bTarget=\"([^\"]*)\"");

    private final Map<String, List<Merged>> merged = new TreeMap<>();
    private final Map<String, String> targets = new TreeMap<>();
    private String refusal = "";

    private WorkbookGuard() {}

    /** A block of merged cells; rows and columns from 1. */
    record Merged(String range, int firstRow, int lastRow, int firstColumn) {}

    /** Looks through a workbook; see {@link #refusal}. */
    static WorkbookGuard of(byte[] workbook) throws IOException {
        final WorkbookGuard guard = new WorkbookGuard();
        try (ZipFile zip = ZipFile.builder().setByteArray(workbook).get()) {
            int parts = 0;
            for (ZipArchiveEntry e : Collections.list(zip.getEntries())) {
                parts++;
                if (parts > Limits.WORKBOOK_PARTS) {
                    guard.refusal = "more than " + Limits.WORKBOOK_PARTS + " parts";
                    return guard;
                }
                try (InputStream part = zip.getInputStream(e)) {
                    guard.part(e.getName(), part, workbook.length);
                }
                if (!guard.refusal.isEmpty()) {
                    return guard;
                }
            }
        }
        return guard;
    }

    /** Why the workbook must not be read; empty if nothing speaks against it. */
    String refusal() {
        return refusal;
    }

    /** The merged cells of a sheet, by its relation. */
    List<Merged> merged(String relation) {
        final String target = targets.getOrDefault(relation, "");
        final String name = target.startsWith("/") ? target.substring(1) : "xl/" + target;
        return merged.getOrDefault(name, List.of());
    }

    private void part(String name, InputStream zip, int packed) throws IOException {
        final boolean texts = name.toLowerCase(java.util.Locale.ROOT).endsWith(TEXTS);
        final long most = texts ? Limits.WORKBOOK_TEXT_BYTES : Limits.WORKBOOK_PART_BYTES;
        final byte[] buffer = new byte[BUFFER];
        final ByteArrayOutputStream whole = new ByteArrayOutputStream();
        long size = 0;
        String before = "";
        for (int n = zip.read(buffer); n > 0; n = zip.read(buffer)) {
            final String text = new String(buffer, 0, n, StandardCharsets.ISO_8859_1);
            if (declares(before + text)) {
                refusal = "declarations of entities or of a document type in " + name;
                return;
            }
            size += n;
            if (size > most) {
                refusal = "a part of more than " + most + " bytes when unpacked, " + name;
                return;
            }
            if (size > Limits.SUSPECT_BYTES && size > Limits.RATIO * packed) {
                refusal = "a part that unpacks to more than " + Limits.RATIO + " times its size";
                return;
            }
            if (name.equals(RELATIONS) && size < MOST_RELATIONS) {
                whole.write(buffer, 0, n);
            }
            before = merged(name, before + text);
        }
        if (name.equals(RELATIONS)) {
            relations(whole.toString(StandardCharsets.UTF_8));
        }
    }

    /** Also in UTF-16, where every other byte is 0. */
    private static boolean declares(String text) {
        final String plain = text.indexOf(0) < 0 ? text : text.replace("\0", "");
        return plain.contains("<!DOCTYPE") || plain.contains("<!ENTITY");
    }

    /** Notes merged cells; the end of the text, in which one may have begun. */
    private String merged(String name, String text) {
        if (text.contains("mergeCell")) {
            final Matcher matcher = MERGED.matcher(text);
            final List<Merged> list = merged.computeIfAbsent(name, n -> new ArrayList<>());
            while (matcher.find()) {
                final Merged block =
                        new Merged(
                                matcher.group(1)
                                        + matcher.group(2)
                                        + ":"
                                        + matcher.group(3)
                                        + matcher.group(4),
                                Integer.parseInt(matcher.group(2)),
                                Integer.parseInt(matcher.group(4)),
                                column(matcher.group(1)));
                if (!list.contains(block) && list.size() < MOST_MERGED) {
                    list.add(block);
                }
            }
        }
        return text.substring(Math.max(0, text.length() - OVERLAP));
    }

    private void relations(String xml) {
        final Matcher matcher = RELATION.matcher(xml);
        while (matcher.find()) {
            final Matcher id = ID.matcher(matcher.group(1));
            final Matcher target = TARGET.matcher(matcher.group(1));
            if (id.find() && target.find()) {
                targets.put(id.group(1), target.group(1));
            }
        }
    }

    private static int column(String letters) {
        int column = 0;
        for (int i = 0; i < letters.length(); i++) {
            column = 26 * column + letters.charAt(i) - 'A' + 1;
        }
        return column;
    }
}
