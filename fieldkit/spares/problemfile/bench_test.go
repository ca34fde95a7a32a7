package problemfile

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/spares/optimum"
	"trailfieldkit/fieldkit/spares/problemfile/generatedtest"
)

// BenchmarkGenerated gives the time to the proof of each generated problem, at most 20
// seconds, and the gaps after 100 ms and after a second.
func BenchmarkGenerated(b *testing.B) {
	for _, p := range generatedtest.Problems() {
		b.Run(p.Name, func(b *testing.B) {
			for b.Loop() {
				from := time.Now()
				task, err := Read(p.Text)
				if err != nil {
					b.Fatal(err)
				}
				var last optimum.Answer
				var at [2]float64
				spans, next := []time.Duration{100 * time.Millisecond, time.Second}, 0
				slice := from
				a := task.Solve(optimum.Options{
					Found: func(a optimum.Answer) { last = a },
					KeepGoing: func() bool {
						now := time.Since(from)
						if runtime.GOOS == "js" && time.Since(slice) > 100*time.Millisecond {
							time.Sleep(time.Microsecond) // so that the page answers
							slice = time.Now()
						}
						for next < 2 && now >= spans[next] {
							at[next] = 100 * last.Gap()
							next++
						}
						return now < 20*time.Second
					},
				})
				b.ReportMetric(float64(time.Since(from).Microseconds())/1000, "ms")
				b.ReportMetric(a.Value, "value")
				b.ReportMetric(100*(a.Bound-a.Value)/a.Bound, "%gap")
				b.ReportMetric(at[0], "%gap-100ms")
				b.ReportMetric(at[1], "%gap-1s")
				b.ReportMetric(float64(a.Nodes), "nodes")
				b.ReportMetric(0, "ns/op")
			}
		})
	}
}

// Source: optima by HiGHS 1.15.3 (npm registry), the model of cmd/measure/plan.js, gap 0.
// These problems are beyond enumeration.
func TestGenerated(t *testing.T) {
	optima := map[string]float64{
		"linear-20+10-a":  152.625,
		"pooled-20+10-a":  315.0997843729915,
		"linear-20+10-b":  109.451,
		"pooled-20+10-b":  303.55661275125885,
		"linear-50+20-a":  301.982,
		"pooled-50+20-a":  766.97431624476,
		"linear-50+20-b":  412.628,
		"pooled-50+20-b":  748.6094723600062,
		"linear-100+40-a": 757.23,
		"pooled-100+40-a": 1486.6844361997735,
		"linear-100+40-b": 812.903,
		"pooled-100+40-b": 1558.786148050172,
		"linear-200+60-a": 1487.756,
		"pooled-200+60-a": 2966.402504750458,
		"linear-200+60-b": 1393.394,
		"pooled-200+60-b": 3030.986307753684,
		"linear-200+60-c": 1433.535,
		"pooled-200+60-c": 2922.128198509936,
		"linear-200+60-d": 1453.035,
		"pooled-200+60-d": 2976.109375433031,
		"linear-200+60-e": 1423.651,
		"pooled-200+60-e": 3171.1891496885532,
		"linear-200+60-f": 1426.028,
		"pooled-200+60-f": 2833.4308329562373,
		"linear-200+60-g": 1446.24,
		"pooled-200+60-g": 3246.9312081037097,
		"linear-200+60-h": 1582.535,
		"pooled-200+60-h": 3003.7016742684773,
		"linear-200+60-i": 1635.13,
		"pooled-200+60-i": 3289.492082870854,
		"linear-200+60-j": 1523.803,
		"pooled-200+60-j": 3178.458778730606,
		"linear-200+60-k": 1508.228,
		"pooled-200+60-k": 2992.8405092818807,
		"linear-200+60-l": 1569.567,
		"pooled-200+60-l": 3141.7327693510406,
	}
	for _, p := range generatedtest.Problems() {
		if best, ok := optima[p.Name]; ok {
			t.Run(p.Name, func(t *testing.T) {
				task, err := Read(p.Text)
				require.NoError(t, err)
				proves(t, task, best, task.Solve(optimum.Options{}))
			})
		}
	}
}
