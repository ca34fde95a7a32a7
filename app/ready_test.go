package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What was said on top of a screen turns into good news there; where nothing was said,
// nothing comes.
func TestReadinessKeepsItsPlace(t *testing.T) {
	ready := readiness{state: "ready"}
	assert.Nil(t, readiness{}.then(ready).notice())
	for _, before := range []string{"saving", "failed", "missing"} {
		now := readiness{state: before}.then(ready)
		assert.NotNil(t, now.notice(), before)
		assert.Nil(t, now.then(readiness{state: "unavailable"}).notice())
	}
	assert.False(t, ready.then(readiness{state: "missing"}).late)
}
