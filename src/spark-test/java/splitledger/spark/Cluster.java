package splitledger.spark;

import java.io.Closeable;
import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** A cluster of processes on this machine that speak over loopback alone: a master, workers. */
final class Cluster implements Closeable {
    private static final String HOST = "127.0.0.1";
    private static final int TRIES = 600;
    private static final long PAUSE = 100;

    private final Path folder;
    private final int port;
    private final List<Process> processes = new ArrayList<>();

    private Cluster(Path folder, int port) {
        this.folder = folder;
        this.port = port;
    }

    /** Settings of a driver that stays on this machine. */
    static SortedMap<String, String> loopback() {
        return new TreeMap<>(
                Map.of(
                        "spark.ui.enabled", "false",
                        "spark.driver.host", HOST,
                        "spark.driver.bindAddress", HOST));
    }

    /** Starts a master and two workers of one core. */
    static Cluster started(Path folder) throws IOException, InterruptedException {
        final Cluster cluster = new Cluster(folder, freePort());
        Files.createDirectories(folder.resolve("home/jars"));
        cluster.start(
                "org.apache.spark.deploy.master.Master",
                "--host",
                HOST,
                "--port",
                Integer.toString(cluster.port),
                "--webui-port",
                "0");
        cluster.awaitMaster();
        cluster.startWorker();
        cluster.startWorker();
        return cluster;
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    /** Address of the master. */
    String master() {
        return "spark://" + HOST + ":" + port;
    }

    /** The libraries and classes of this process. */
    static String classPath() {
        return System.getProperty(
                "surefire.test.class.path", System.getProperty("java.class.path"));
    }

    private void startWorker() throws IOException {
        start(
                "org.apache.spark.deploy.worker.Worker",
                "--host",
                HOST,
                "--webui-port",
                "0",
                "--cores",
                "1",
                "--memory",
                "1g",
                "--work-dir",
                folder.resolve("work" + processes.size()).toString(),
                master());
    }

    private void start(String main, String... arguments) throws IOException {
        final List<String> command =
                new ArrayList<>(
                        List.of(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-Xmx256m",
                                "-XX:+UseSerialGC",
                                "-cp",
                                classPath(),
                                main));
        command.addAll(List.of(arguments));
        final File log = folder.resolve("log" + processes.size()).toFile();
        final ProcessBuilder builder =
                new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log);
        builder.environment().put("SPARK_HOME", folder.resolve("home").toString());
        builder.environment().put("SPARK_LOCAL_IP", HOST);
        builder.environment().put("SPARK_PUBLIC_DNS", HOST);
        builder.environment().put("SPARK_SCALA_VERSION", "2.13");
        processes.add(builder.start());
    }

    private void awaitMaster() throws IOException, InterruptedException {
        for (int i = 0; i < TRIES; i++) {
            try (Socket socket = new Socket()) {
                socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
                return;
            } catch (IOException notYet) {
                Thread.sleep(PAUSE);
            }
        }
        throw new IOException("no master: " + Files.readString(folder.resolve("log0")));
    }

    /** Kills the first worker and all that it started, without a chance to say so. */
    void killWorker() {
        kill(processes.get(1));
    }

    private static void kill(Process process) {
        final List<ProcessHandle> started = process.descendants().toList();
        process.destroyForcibly();
        started.forEach(ProcessHandle::destroyForcibly);
    }

    @Override
    public void close() {
        for (int i = processes.size() - 1; i >= 0; i--) {
            kill(processes.get(i));
        }
    }
}
