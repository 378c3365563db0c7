package splitledger;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackage;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Calendar;
import java.util.Collections;
import java.util.Date;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The house as a test: which room may use which, and what belongs into one room only. Rules hold
 * for main classes; a room that does not exist yet breaks none.
 */
@AnalyzeClasses(
        packages = "splitledger",
        importOptions = {
            ImportOption.DoNotIncludeTests.class,
            ArchitectureTest.WithoutTheCluster.class
        })
class ArchitectureTest {

    /**
     * What a room may use, beside itself. Arrows are transitive: a room may also use whatever the
     * rooms it names may use. {@code cli} is not listed: it may use everything.
     */
    private static final Map<String, List<String>> MAY_USE = new LinkedHashMap<>();

    static {
        room("base");
        room("statistics");
        room("propagation", "statistics");
        room("inlet", "propagation", "statistics");
        room("study", "base", "propagation", "statistics");
        room("intake", "study", "propagation");
        room("characteristic", "study", "inlet", "propagation", "statistics");
        room("budget", "study", "propagation", "statistics");
        room("evaluation", "characteristic", "budget", "study");
        room("chart", "study");
        room("handbook", "base");
        room("report", "study", "chart", "handbook");
        room("dossier", "intake", "evaluation", "report", "study");
        room("history", "dossier", "evaluation", "study");
        room("virtual", "study", "intake", "inlet", "propagation", "statistics");
        room("planning", "dossier", "evaluation", "virtual", "study");
        room("qualification", "dossier", "evaluation", "virtual", "study");
        room("fleet", "dossier", "evaluation", "virtual", "study");
    }

    /** A room of the house; the rooms it names stand above it, so that no circle can arise. */
    private static void room(String name, String... mayUse) {
        for (String used : mayUse) {
            assertThat(MAY_USE).as("room used by " + name).containsKey(used);
        }
        MAY_USE.put(name, List.of(mayUse));
    }

    private static final String CLI = "splitledger.cli..";

    private static final Set<String> MACHINE_DEPENDENT =
            Set.of(
                    "exp", "expm1", "log", "log10", "log1p", "pow", "sin", "cos", "tan", "asin",
                    "acos", "atan", "atan2", "sinh", "cosh", "tanh", "cbrt", "hypot");

    @ArchTest
    static void aRoomUsesOnlyTheRoomsItMayUse(JavaClasses house) {
        final List<String> violations = new ArrayList<>();
        for (String room : MAY_USE.keySet()) {
            final Set<String> allowed = new TreeSet<>();
            collect(room, allowed);
            final String[] packages =
                    allowed.stream().map(r -> "splitledger." + r + "..").toArray(String[]::new);
            final ArchRule arrows =
                    noClasses()
                            .that()
                            .resideInAPackage("splitledger." + room + "..")
                            .should()
                            .dependOnClassesThat(
                                    resideInAPackage("splitledger..")
                                            .and(not(resideInAnyPackage(packages))))
                            .because("there is one way through the house, and nothing flows back")
                            .allowEmptyShould(true);
            for (String found : arrows.evaluate(house).getFailureReport().getDetails()) {
                violations.add(room + " may use only " + allowed + ": " + found);
            }
        }

        assertThat(violations)
                .as("there is one way through the house, and nothing flows back")
                .isEmpty();
    }

    private static void collect(String room, Set<String> into) {
        if (into.add(room)) {
            for (String next : MAY_USE.getOrDefault(room, List.of())) {
                collect(next, into);
            }
        }
    }

    /** What a characteristic may use of others: the room named; all may use what they share. */
    private static final Map<String, List<String>> CHARACTERISTICS = new LinkedHashMap<>();

    static {
        CHARACTERISTICS.put("calibration", List.of());
        CHARACTERISTICS.put("precision", List.of());
        CHARACTERISTICS.put("discrimination", List.of());
        CHARACTERISTICS.put("losses", List.of("discrimination"));
        CHARACTERISTICS.put("split", List.of("losses"));
        CHARACTERISTICS.put("detection", List.of("calibration"));
        CHARACTERISTICS.put("recovery", List.of("calibration"));
        CHARACTERISTICS.put("maintenance", List.of("precision"));
    }

    @ArchTest
    static void characteristicsUseOnlyThoseTheyNeed(JavaClasses house) {
        final String room = "splitledger.characteristic";
        final List<String> violations = new ArrayList<>();
        CHARACTERISTICS.forEach(
                (name, needed) -> {
                    final List<String> others = new ArrayList<>(CHARACTERISTICS.keySet());
                    others.remove(name);
                    others.removeAll(needed);
                    final ArchRule rule =
                            noClasses()
                                    .that()
                                    .resideInAPackage(room + "." + name)
                                    .should()
                                    .dependOnClassesThat(
                                            resideInAnyPackage(
                                                            others.stream()
                                                                    .map(o -> room + "." + o)
                                                                    .toArray(String[]::new))
                                                    .or(name(room + ".Catalogue")));
                    violations.addAll(rule.evaluate(house).getFailureReport().getDetails());
                });

        assertThat(violations)
                .as("a characteristic stands on those it names, and only the catalogue knows all")
                .isEmpty();
    }

    @ArchTest
    static final ArchRule whatCharacteristicsShareKnowsNoneOfThem =
            noClasses()
                    .that()
                    .resideInAPackage("splitledger.characteristic")
                    .and()
                    .doNotHaveSimpleName("Catalogue")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("splitledger.characteristic.*..")
                    .because("a shared class that knew one of them would tie all to it");

    @ArchTest
    static final ArchRule everyClassLivesInAKnownRoom =
            classes()
                    .should()
                    .resideInAnyPackage(
                            Stream.concat(MAY_USE.keySet().stream(), Stream.of("cli"))
                                    .map(room -> "splitledger." + room + "..")
                                    .toArray(String[]::new))
                    .because(
                            "a room without an arrow in this test could use anything; add it to MAY_USE"
                                    + " first");

    @ArchTest
    static final ArchRule theNormalProgramKnowsNoCluster =
            noClasses()
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(
                            "splitledger.spark..",
                            "org.apache.spark..",
                            "org.apache.hadoop..",
                            "org.apache.parquet..",
                            "scala..")
                    .because("it runs on one machine without them; the profile spark adds them");

    @ArchTest
    static void theNormalProgramIsNotBuiltWithACluster(JavaClasses unused) throws IOException {
        final String pom = Files.readString(Path.of("pom.xml"));
        final String normal = pom.substring(0, pom.indexOf("<profiles>"));

        assertThat(normal).contains("<dependencies>").doesNotContain("spark", "hadoop", "parquet");
    }

    /** Leaves out what the profile {@code spark} adds: it stands beside the house. */
    static final class WithoutTheCluster implements ImportOption {
        @Override
        public boolean includes(Location location) {
            return !location.contains("/splitledger/spark/");
        }
    }

    @ArchTest
    static final ArchRule baseNeedsTheJdkAlone =
            classes()
                    .that()
                    .resideInAPackage("splitledger.base..")
                    .should()
                    .onlyDependOnClassesThat()
                    .resideInAnyPackage("splitledger.base..", "java..", "org.jspecify..")
                    .because("every room stands on base: a library there would be everywhere")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule theMathematicsNeedsNoLibraryBesideItsOwnTwo =
            classes()
                    .that()
                    .resideInAnyPackage(
                            "splitledger.statistics..",
                            "splitledger.propagation..",
                            "splitledger.inlet..")
                    .should()
                    .onlyDependOnClassesThat()
                    .resideInAnyPackage(
                            "splitledger..",
                            "java..",
                            "org.apache.commons.math3..",
                            "org.apache.commons.rng..",
                            "org.jspecify..")
                    .because(
                            "numerics are read and recomputed by others: the fewer names the better")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule theMathematicsDoesNoInputAndOutput =
            noClasses()
                    .that()
                    .resideInAnyPackage(
                            "splitledger.statistics..",
                            "splitledger.propagation..",
                            "splitledger.inlet..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(
                            "java.io..",
                            "java.nio..",
                            "java.net..",
                            "java.awt..",
                            "org.slf4j..",
                            "picocli..")
                    .because("it must be callable from a test with arrays alone")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyTheCommandLineTouchesTheStandardStreams =
            noClasses()
                    .that()
                    .resideOutsideOfPackage(CLI)
                    .should()
                    .accessTargetWhere(
                            access(
                                    "is a standard stream, the console or printStackTrace()",
                                    ArchitectureTest::isStandardStream))
                    .because("a room that prints cannot be tested, piped or run many at a time")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyTheCommandLineEndsTheProcess =
            noClasses()
                    .that()
                    .resideOutsideOfPackage(CLI)
                    .should()
                    .accessTargetWhere(access("ends the process", ArchitectureTest::endsProcess))
                    .because("exit codes are an interface with one owner")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyTheCommandLineKnowsPicocli =
            noClasses()
                    .that()
                    .resideOutsideOfPackage(CLI)
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("picocli..")
                    .because("commands are thin: what they call knows nothing of options")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyIntakeAndHistoryKnowTablesaw =
            noClasses()
                    .that()
                    .resideOutsideOfPackages("splitledger.intake..", "splitledger.history..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("tech.tablesaw..")
                    .because(
                            "it guesses what a cell means; behind intake every cell has been decided")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyChartKnowsTheChartLibrary =
            noClasses()
                    .that()
                    .resideOutsideOfPackage("splitledger.chart..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("org.jfree..")
                    .because("figures are data until the last step")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule onlyTheHandbookKnowsMarkdown =
            noClasses()
                    .that()
                    .resideOutsideOfPackage("splitledger.handbook..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage("org.commonmark..")
                    .because("a page is text or markup to whoever shows it")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule resultsDoNotDependOnTheMachine =
            noClasses()
                    .that(resideOutsideOfPackage("splitledger.chart.."))
                    .should()
                    .accessTargetWhere(
                            access(
                                    "is a function of Math that differs between machines",
                                    ArchitectureTest::isMachineDependent))
                    .because(
                            "Math.exp and its like may differ in the last digit between processors:"
                                    + " StrictMath or FastMath give the same bytes everywhere")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule nothingIsLeftToChance =
            noClasses()
                    .that()
                    .resideOutsideOfPackages(CLI, "splitledger.dossier..")
                    .should()
                    .accessTargetWhere(access("is a source of chance", ArchitectureTest::isChance))
                    .because(
                            "a budget is recomputed years later: its stream comes from a seed of ours and"
                                    + " a generator that does not change with the JDK")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule noResultKnowsWhatTimeItIs =
            noClasses()
                    .that()
                    .resideOutsideOfPackages(CLI, "splitledger.dossier..")
                    .should()
                    .accessTargetWhere(access("reads the clock", ArchitectureTest::readsClock))
                    .because("the same input gives the same bytes, today and next year")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule filesAreReachedThroughTheVault =
            noClasses()
                    .that()
                    .resideOutsideOfPackages("splitledger.base..", "splitledger.dossier..", CLI)
                    .should()
                    .dependOnClassesThat(
                            resideInAPackage("java.nio.file..")
                                    .or(
                                            describe(
                                                    "are files or streams of files of java.io",
                                                    ArchitectureTest::isFile)))
                    .because(
                            "a local folder, an archive and a cluster look alike through Vault only")
                    .allowEmptyShould(true);

    @ArchTest
    static final ArchRule nothingStaticChanges =
            fields().that()
                    .areStatic()
                    .and()
                    .areDeclaredInClassesThat()
                    .resideOutsideOfPackage("splitledger.report.templates..")
                    .should()
                    .beFinal()
                    .because("two evaluations in one process must not know of each other")
                    .allowEmptyShould(true);

    @ArchTest
    static void everyPackageSaysWhatItIsFor(JavaClasses unused) throws IOException {
        final Path sources = Path.of("src", "main", "java");
        final Set<Path> folders = new TreeSet<>();
        try (Stream<Path> files = Files.walk(sources)) {
            files.filter(file -> file.toString().endsWith(".java"))
                    .forEach(file -> folders.add(file.resolveSibling("package-info.java")));
        }

        assertThat(folders).isNotEmpty();
        assertThat(folders)
                .as("a newcomer starts reading there")
                .allSatisfy(info -> assertThat(info).exists());
    }

    private static DescribedPredicate<JavaAccess<?>> access(
            String description, Predicate<JavaAccess<?>> test) {
        return describe(description, test);
    }

    private static boolean isStandardStream(JavaAccess<?> access) {
        final JavaClass owner = access.getTargetOwner();
        final String name = access.getTarget().getName();
        if (owner.isEquivalentTo(System.class)) {
            return Set.of("in", "out", "err", "console", "setIn", "setOut", "setErr")
                    .contains(name);
        }
        return name.equals("printStackTrace")
                && owner.isAssignableTo(Throwable.class)
                && access.getTarget().getFullName().endsWith("()");
    }

    private static boolean endsProcess(JavaAccess<?> access) {
        final JavaClass owner = access.getTargetOwner();
        return (owner.isEquivalentTo(System.class) || owner.isEquivalentTo(Runtime.class))
                && Set.of("exit", "halt").contains(access.getTarget().getName());
    }

    private static boolean isMachineDependent(JavaAccess<?> access) {
        return access.getTargetOwner().isEquivalentTo(Math.class)
                && MACHINE_DEPENDENT.contains(access.getTarget().getName());
    }

    private static boolean isChance(JavaAccess<?> access) {
        final JavaClass owner = access.getTargetOwner();
        final String name = access.getTarget().getName();
        return owner.isAssignableTo(Random.class)
                || owner.isEquivalentTo(SplittableRandom.class)
                || owner.getPackageName().equals("java.util.random")
                || (owner.isEquivalentTo(Math.class) && name.equals("random"))
                || (owner.isEquivalentTo(StrictMath.class) && name.equals("random"))
                || (owner.isEquivalentTo(UUID.class) && name.equals("randomUUID"))
                || (owner.isEquivalentTo(Collections.class) && name.equals("shuffle"));
    }

    private static boolean readsClock(JavaAccess<?> access) {
        final JavaClass owner = access.getTargetOwner();
        final String name = access.getTarget().getName();
        if (owner.isEquivalentTo(System.class)) {
            return name.equals("currentTimeMillis") || name.equals("nanoTime");
        }
        if (owner.isEquivalentTo(Date.class)) {
            return access.getTarget().getFullName().endsWith(".<init>()");
        }
        return (owner.getPackageName().startsWith("java.time") && name.equals("now"))
                || (owner.isEquivalentTo(Clock.class)
                        && (name.startsWith("system") || name.startsWith("tick")))
                || (owner.isAssignableTo(Calendar.class) && name.equals("getInstance"));
    }

    private static boolean isFile(JavaClass target) {
        return Set.of(
                        "java.io.File",
                        "java.io.FileInputStream",
                        "java.io.FileOutputStream",
                        "java.io.FileReader",
                        "java.io.FileWriter",
                        "java.io.RandomAccessFile")
                .contains(target.getName());
    }
}
