package splitledger.characteristic.recovery;

/** The ways to find a recovery. */
enum RecoveryKind {
    /** Known amounts added to samples. */
    SPIKE(
            "procedure",
            "spike",
            "spikes do not prove the recovery of the native analyte, which the sample may hold faster"),
    /** The response to amounts added to one sample against that of the calibration. */
    ADDITION(
            "procedure",
            "standard-addition",
            "slope of the amounts found against the amounts added; spikes do not prove the recovery of the native analyte"),
    /** A material of known content. */
    REFERENCE(
            "reference-material",
            "reference-material",
            "holds for samples as far as their matrix is that of the material"),
    /** Hot split injection against cold injection onto the column. */
    TRANSFER(
            "transfer",
            "on-column",
            "what the hot inlet lets through to the column; it says nothing of sample preparation");

    private final String condition;
    private final String method;
    private final String caution;

    RecoveryKind(String condition, String method, String caution) {
        this.condition = condition;
        this.method = method;
        this.caution = caution;
    }

    /** Value of the condition {@code kind} in files. */
    String condition() {
        return condition;
    }

    /** The method cell. */
    String method() {
        return method;
    }

    /** What must be said beside every number of it. */
    String caution() {
        return caution;
    }
}
