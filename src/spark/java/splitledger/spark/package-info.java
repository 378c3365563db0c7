/**
 * Many studies on a cluster: the same work as the room {@code fleet}, spread by Apache Spark over
 * machines that share a file system. Built by the profile {@code spark} alone; no other room knows
 * of it. Start at {@link splitledger.spark.FleetOnSpark}.
 */
package splitledger.spark;
