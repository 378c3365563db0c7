package splitledger.intake;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A stream that ends with an exception after so many bytes, however many follow. */
final class LimitedStream extends FilterInputStream {
    private long left;

    LimitedStream(InputStream in, long most) {
        super(in);
        left = most;
    }

    @Override
    public int read() throws IOException {
        final int b = super.read();
        count(b < 0 ? 0 : 1);
        return b;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        final int n = super.read(bytes, offset, length);
        count(Math.max(0, n));
        return n;
    }

    private void count(int n) {
        left -= n;
        if (left < 0) {
            throw new RowCells.TooLargeException();
        }
    }
}
