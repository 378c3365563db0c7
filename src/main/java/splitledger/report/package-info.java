/**
 * What is written of an evaluation: tables, figures, the machine-readable record and the page for
 * people. Start at {@link splitledger.report.ReportWriter}.
 *
 * <p>Everything comes from the {@link splitledger.study.Evaluation}; nothing is computed here but
 * the rounding of what is printed on pages ({@link splitledger.report.Rounded}), words for names
 * ({@link splitledger.report.Wording}) and the order of things. Tables and the record keep every
 * digit. The page's skeleton lies in templates that escape all text; its content is the plain data
 * of {@link splitledger.report.Page}.
 */
package splitledger.report;
