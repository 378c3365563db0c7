package splitledger.intake;

/**
 * Checks bytes for UTF-8 as they pass (RFC 3629: no surrogates, nothing overlong, nothing above
 * U+10FFFF), and tells the line of the first that is none. Needs no memory for long lines.
 */
final class Utf8Check {
    private int line = 1;
    private int pending;
    private int low = 0x80;
    private int high = 0xBF;
    private int badLine;
    private boolean afterReturn;

    /** Takes some bytes; once a bad one was met, nothing more. */
    void take(byte[] bytes, int length) {
        for (int i = 0; i < length && badLine == 0; i++) {
            final byte b = bytes[i];
            if (b >= 0 && pending == 0) {
                count(b);
            } else {
                multi(b & 0xFF);
            }
        }
    }

    /** Ends the file: a character that was begun must be whole. */
    void end() {
        if (pending > 0 && badLine == 0) {
            badLine = line;
        }
    }

    /** The line of the first bytes that are not UTF-8; 0 if there are none. */
    int badLine() {
        return badLine;
    }

    private void count(byte b) {
        if (b == '\n') {
            line += afterReturn ? 0 : 1;
        } else if (b == '\r') {
            line++;
        }
        afterReturn = b == '\r';
    }

    private void multi(int b) {
        afterReturn = false;
        if (pending > 0) {
            if (b < low || b > high) {
                badLine = line;
                return;
            }
            pending--;
            low = 0x80;
            high = 0xBF;
            return;
        }
        if (b >= 0xC2 && b <= 0xDF) {
            pending = 1;
        } else if (b >= 0xE0 && b <= 0xEF) {
            pending = 2;
            low = b == 0xE0 ? 0xA0 : 0x80;
            high = b == 0xED ? 0x9F : 0xBF;
        } else if (b >= 0xF0 && b <= 0xF4) {
            pending = 3;
            low = b == 0xF0 ? 0x90 : 0x80;
            high = b == 0xF4 ? 0x8F : 0xBF;
        } else {
            badLine = line;
        }
    }
}
