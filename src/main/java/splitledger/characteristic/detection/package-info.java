/**
 * How little can be told from nothing, by the definition of each document, with the error rates to
 * be expected in a design like this one. Start at {@link
 * splitledger.characteristic.detection.Detection}; {@code DetectionLimits} holds limits from a
 * line, {@code CalibrationLimits} and {@code MethodDetectionLimit} the other definitions, {@code
 * DetectionRates} the imagined repetitions.
 *
 * <p>May use what {@code characteristic} may, its shared classes, and {@code calibration}, whose
 * lines the limits are read from. No files, no rounding.
 */
package splitledger.characteristic.detection;
