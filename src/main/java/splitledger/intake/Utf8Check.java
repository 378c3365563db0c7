package splitledger.intake;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Checks bytes for UTF-8 as they pass (RFC 3629: no surrogates, nothing overlong, nothing above
 * U+10FFFF), and tells how many were good. Needs no memory for long lines.
 */
final class Utf8Check {
    private static final VarHandle EIGHT =
            MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.nativeOrder());
    private static final long NOT_ASCII = 0x8080808080808080L;

    private long passed;
    private int pending;
    private int low = 0x80;
    private int high = 0xBF;
    private boolean bad;

    /** Takes some bytes; once a bad one was met, nothing more. */
    void take(byte[] bytes, int length) {
        int i = 0;
        while (i < length && !bad) {
            if (pending == 0
                    && i + Long.BYTES <= length
                    && ((long) EIGHT.get(bytes, i) & NOT_ASCII) == 0) {
                i += Long.BYTES;
                continue;
            }
            final int b = bytes[i] & 0xFF;
            bad = b < 0x80 ? pending > 0 : !multi(b);
            i += bad ? 0 : 1;
        }
        passed += i;
    }

    /** Ends the file: a character that was begun must be whole. */
    void end() {
        bad |= pending > 0;
    }

    /** Whether bytes were met that are not UTF-8. */
    boolean isBad() {
        return bad;
    }

    /** How many bytes stand before the first bad one. */
    long passed() {
        return passed;
    }

    /** Takes a byte of a character of several; whether it may stand there. */
    private boolean multi(int b) {
        if (pending > 0) {
            if (b < low || b > high) {
                return false;
            }
            pending--;
            low = 0x80;
            high = 0xBF;
            return true;
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
            return false;
        }
        return true;
    }
}
