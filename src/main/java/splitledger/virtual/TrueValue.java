package splitledger.virtual;

import splitledger.study.Key;

/**
 * What an estimate should come near to.
 *
 * @param key of the finding it is about; its method is empty, unless methods of one quantity
 *     estimate different things
 * @param value in {@code unit}
 * @param unit its unit
 */
public record TrueValue(Key key, double value, String unit) {}
