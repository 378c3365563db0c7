/**
 * Shows on the user's own machine that the program computes what others have published: studies and
 * printed tables with known answers, evaluated by the same functions as every study. Cases and
 * expected values are resources with their sources. Start at {@link
 * splitledger.qualification.Qualification}.
 */
package splitledger.qualification;
