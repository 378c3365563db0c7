/**
 * Figure data to pictures: {@link splitledger.chart.ChartRenderer} draws a {@link
 * splitledger.study.Figure} in one house style and gives the bytes of an SVG. The only room that
 * knows the chart library and AWT.
 *
 * <p>Nothing is decided here that a reader could mistake for data: ends of axes, ticks and texts
 * come with the figure. The same figure gives the same bytes on every machine, with or without
 * installed fonts, in any thread. Colours are told apart by colour-blind readers and never carry a
 * meaning alone: symbols, dashes and words do too.
 */
package splitledger.chart;
