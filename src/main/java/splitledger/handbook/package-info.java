/**
 * The handbook: what each characteristic and each idea behind it means, with formula, conditions,
 * pitfalls and sources. Pages are Markdown among the resources; start at {@link
 * splitledger.handbook.Handbook}.
 *
 * <p>House rules here: a page is written in our own words and ends with its sources; links lead to
 * other pages only. {@code topics.txt} lists the pages in the order in which they are shown, with
 * further names for each. This room knows Markdown and no other does; it knows neither terminal nor
 * report.
 */
package splitledger.handbook;
