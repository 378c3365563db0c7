package splitledger.propagation;

/** An equation that cannot be read, with the place in its text. */
public final class ExpressionException extends Exception {
    private static final long serialVersionUID = 1L;

    private final int position;

    /**
     * A mistake at a place.
     *
     * @param position 1-based character
     * @param message what stands there and what was expected
     */
    public ExpressionException(int position, String message) {
        super("at character " + position + ": " + message);
        this.position = position;
    }

    /** 1-based character at which reading stopped. */
    public int position() {
        return position;
    }
}
