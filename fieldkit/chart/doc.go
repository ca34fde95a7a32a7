// Package chart draws pictures of figures for people who would rather look than read:
// bars side by side, and readings over distance or hours with a line, its interval and a limit.
//
//	svg := chart.Bars("Failures by system", bars)     // text of an SVG element
//	svg = chart.Trend("Wear of the front pads", t)
//
// A drawing is made for a phone: 328 units wide, text of 18 units, the colour of the
// text around it. It carries its title and a description in words, is one image to a
// screen reader, and has classes where colour is chosen, never a style of its own. Nothing
// is said by colour alone. Beside it belongs a table with the same figures: the package
// draws, it does not replace it.
//
// Where everything stands is worked out first (Layout of bars, Frame of a trend) and
// drawn then, so that tests can look at figures rather than at ink.
package chart
