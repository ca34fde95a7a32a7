package problemfile

import (
	"fmt"
	"runtime"
	"testing"
	"time"

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

// The generated problems are what they are said to be, and always the same.
func TestGenerated(t *testing.T) {
	for _, p := range generatedtest.Problems()[:4] {
		if _, err := Read(p.Text); err != nil {
			t.Error(fmt.Errorf("%s: %w", p.Name, err))
		}
	}
}
