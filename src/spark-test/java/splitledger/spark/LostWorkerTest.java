package splitledger.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.SortedMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A cluster of separate processes, one of which is killed while it works. */
class LostWorkerTest {
    private static final int STUDIES = 16;

    @TempDir Path folder;

    @Test
    @Timeout(value = 5, unit = TimeUnit.MINUTES)
    void theRunEndsWithTheSameBytesAlthoughAWorkerIsKilled() throws Exception {
        final Studies studies = studies();
        studies.evaluateHere(folder.resolve("here"), 2);
        final ExecutorService driver = Executors.newSingleThreadExecutor();
        try (Cluster cluster = Cluster.started(folder)) {
            final SortedMap<String, String> settings = settings(cluster);
            settings.forEach(System::setProperty);
            try {
                final Future<Integer> exit =
                        driver.submit(
                                () ->
                                        FleetOnSpark.run(
                                                studies.folder().toString(),
                                                "--out",
                                                folder.resolve("there").toString()));
                while (!Watch.UNDER_WAY.await(1, TimeUnit.SECONDS)) {
                    assertThat(exit.isDone()).as("the run ended too early").isFalse();
                }
                cluster.killWorker();
                assertThat(exit.get(3, TimeUnit.MINUTES)).isEqualTo(2);
            } finally {
                settings.keySet().forEach(System::clearProperty);
            }
        } finally {
            driver.shutdownNow();
        }

        assertThat(Watch.LOST).as("pieces of work that were lost").hasPositiveValue();
        assertThat(Studies.digests(folder.resolve("there")))
                .isEqualTo(Studies.digests(folder.resolve("here")));
    }

    private Studies studies() throws IOException {
        final Studies studies = new Studies(folder.resolve("studies")).addBroken("broken");
        for (int i = 0; i < STUDIES; i++) {
            studies.add("s" + i, i);
        }
        return studies;
    }

    private static SortedMap<String, String> settings(Cluster cluster) {
        final SortedMap<String, String> settings = Cluster.loopback();
        settings.put("spark.master", cluster.master());
        settings.put("spark.executor.memory", "600m");
        settings.put("spark.executor.cores", "1");
        settings.put("spark.executor.extraClassPath", Cluster.classPath());
        settings.put("spark.scheduler.minRegisteredResourcesRatio", "1.0");
        settings.put("spark.extraListeners", Watch.class.getName());
        return settings;
    }
}
