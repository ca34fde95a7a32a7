package findings

import (
	"math"

	"trailfieldkit/fieldkit"
)

// About writes a distance as it may be said of something that is not known to the last
// digit: two figures that count, in the system read first.
func About(d fieldkit.Distance, first fieldkit.System) string {
	unit := fieldkit.Kilometre
	if first == fieldkit.Inch {
		unit = fieldkit.Mile
	}
	x := float64(d) / float64(unit)
	if x > 0 {
		step := math.Pow(10, math.Floor(math.Log10(x))-1)
		x = math.Round(x/math.Max(step, 1)) * math.Max(step, 1)
	}
	return fieldkit.Distance(math.Round(x) * float64(unit)).Show(first)
}
