package findings

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
)

// About writes a distance as it may be said of something that is not known to the last
// digit: two figures that count, in the system read first.
func About(d fieldkit.Distance, first fieldkit.System) string {
	unit := fieldkit.Kilometre
	if first == fieldkit.Inch {
		unit = fieldkit.Mile
	}
	return fieldkit.Distance(twoFigures(float64(d)/float64(unit)) * float64(unit)).Show(first)
}

// AboutRun writes a run of a wear line's meter likewise: a distance, or engine hours.
func AboutRun(w likelihood.WearLine, run likelihood.Run, first fieldkit.System) string {
	if w.ByHours {
		return counted(int(twoFigures(float64(run))), "engine hour")
	}
	return About(run.Distance(), first)
}

// AboutRuns writes two runs of a meter, what lies between them: "420 to 720 engine hours".
func AboutRuns(w likelihood.WearLine, low, high likelihood.Run, first fieldkit.System) string {
	if w.ByHours {
		return fmt.Sprintf("%.0f to %s", twoFigures(float64(low)), AboutRun(w, high, first))
	}
	return AboutRun(w, low, first) + " to " + AboutRun(w, high, first)
}

// twoFigures rounds to a whole number, above 99 to one of two figures that count.
func twoFigures(x float64) float64 {
	if x > 0 {
		step := math.Max(math.Pow(10, math.Floor(math.Log10(x))-1), 1)
		x = math.Round(x/step) * step
	}
	return math.Round(x)
}
