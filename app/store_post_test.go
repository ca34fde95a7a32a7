package app

import (
	"sync"
	"sync/atomic"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// What goroutines post while the screen works through it is done once, all of it.
func TestWhatIsPostedIsDoneOnce(t *testing.T) {
	var q queue
	const posters, each = 4, 20_000
	done := make([]int, posters*each)
	var all sync.WaitGroup
	for p := range posters {
		all.Go(func() {
			for i := range each {
				q.put(func(app.Context) { done[p*each+i]++ })
			}
		})
	}
	var ended atomic.Bool
	go func() {
		all.Wait()
		ended.Store(true)
	}()
	for last := false; !last; {
		last = ended.Load() // what was put in by then is taken below
		for do := q.take(); do != nil; do = q.take() {
			do(app.Context{})
		}
	}
	for i, n := range done {
		if n != 1 {
			t.Fatalf("the %d. was done %d times", i, n)
		}
	}
}
