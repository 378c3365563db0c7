package splitledger.virtual;

import java.util.LinkedHashMap;
import java.util.Map;
import splitledger.study.Tree;

/** Entries of a mapping that is being put together, in order. */
final class Pairs {
    private final Map<String, Tree> entries = new LinkedHashMap<>();

    /** One entry more. */
    Pairs and(String key, Tree value) {
        entries.put(key, value);
        return this;
    }

    /** One text more. */
    Pairs and(String key, String text) {
        return and(key, YamlText.text(text));
    }

    /** The mapping. */
    Tree.Mapping tree() {
        return YamlText.mapping(entries);
    }
}
