package splitledger.spark;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.spark.ExecutorLostFailure;
import org.apache.spark.Success$;
import org.apache.spark.scheduler.SparkListener;
import org.apache.spark.scheduler.SparkListenerTaskEnd;
import org.apache.spark.scheduler.SparkListenerTaskStart;

/** Notes what becomes of the pieces of work; Spark makes it by its name. */
public final class Watch extends SparkListener {
    /** Zero once two machines have begun work and one has ended a piece of it. */
    static final CountDownLatch UNDER_WAY = new CountDownLatch(1);

    /** How many pieces were lost with a machine. */
    static final AtomicInteger LOST = new AtomicInteger();

    private static final Set<String> MACHINES = ConcurrentHashMap.newKeySet();
    private static final AtomicInteger ENDED = new AtomicInteger();

    @Override
    public void onTaskStart(SparkListenerTaskStart start) {
        MACHINES.add(start.taskInfo().executorId());
        look();
    }

    @Override
    public void onTaskEnd(SparkListenerTaskEnd end) {
        if (end.reason() instanceof ExecutorLostFailure) {
            LOST.incrementAndGet();
        } else if (end.reason() == Success$.MODULE$) {
            ENDED.incrementAndGet();
        }
        look();
    }

    private static void look() {
        if (MACHINES.size() == 2 && ENDED.get() > 0) {
            UNDER_WAY.countDown();
        }
    }
}
