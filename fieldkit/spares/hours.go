package spares

import "strconv"

// Hours is an expected span of time on the trail: an average over many trips, so
// it has fractions where fieldkit.Minutes has none.
type Hours float64

// String prints "1.4 h", or "8 min" below an hour.
func (h Hours) String() string {
	if h < 0 {
		return "-" + (-h).String()
	}
	minutes := float64(h) * 60
	switch {
	case minutes < 0.5:
		return "0 min"
	case minutes < 59.5:
		return strconv.FormatFloat(minutes, 'f', 0, 64) + " min"
	case h < 99.95:
		return strconv.FormatFloat(float64(h), 'f', 1, 64) + " h"
	}
	return strconv.FormatFloat(float64(h), 'f', 0, 64) + " h"
}

// Percent prints a probability: "12 %", "0.4 %", "under 0.1 %".
func Percent(p float64) string {
	percent := p * 100
	switch {
	case percent <= 0:
		return "0 %"
	case percent < 0.1:
		return "under 0.1 %"
	case percent < 9.95:
		return strconv.FormatFloat(percent, 'f', 1, 64) + " %"
	case percent > 99 && p < 1:
		return "over 99 %"
	}
	return strconv.FormatFloat(percent, 'f', 0, 64) + " %"
}
