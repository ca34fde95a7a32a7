package app

import (
	"context"
	"errors"
	"maps"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCatchUp(t *testing.T) {
	typed := map[string]string{turnKey: "7", "fieldkit.draft.a": "1-3/8", "fieldkit.pref.kit": "own"}
	old := map[string]string{turnKey: "5", "fieldkit.draft.a": "1-3", "fieldkit.draft.gone": "saved by now", "fieldkit.pref.kit": "own"}
	for name, c := range map[string]struct{ first, second map[string]string }{
		"the battery died before the first was on disk": {old, typed},
		"the first is lost":                             {map[string]string{}, typed},
		"the tab was closed before the second":          {typed, old},
		"an older version kept no second":               {typed, map[string]string{}},
	} {
		t.Run(name, func(t *testing.T) {
			toFirst, toSecond := catchUp(c.first, c.second)
			apply(c.first, toFirst)
			apply(c.second, toSecond)
			assert.Equal(t, typed, c.first)
			assert.Equal(t, typed, c.second)
		})
	}
	t.Run("as far as each other", func(t *testing.T) {
		toFirst, toSecond := catchUp(typed, maps.Clone(typed))
		assert.Empty(t, toFirst)
		assert.Empty(t, toSecond)
	})
	t.Run("a count that is no count", func(t *testing.T) {
		toFirst, toSecond := catchUp(map[string]string{turnKey: "-3"}, map[string]string{turnKey: "x"})
		assert.Empty(t, toFirst)
		assert.Empty(t, toSecond)
	})
}

func apply(texts, changed map[string]string) {
	for key, value := range changed {
		if value == "" {
			delete(texts, key)
			continue
		}
		texts[key] = value
	}
}

// slowKeeper answers when it is told to.
type slowKeeper struct {
	kept   map[string]string
	writes chan map[string]string // asked for
	answer chan error
}

func (k *slowKeeper) All(context.Context) (map[string]string, error) { return k.kept, nil }

func (k *slowKeeper) Put(_ context.Context, changed map[string]string) error {
	k.writes <- maps.Clone(changed)
	err := <-k.answer
	if err == nil {
		apply(k.kept, changed)
	}
	return err
}

// Typing is never slower than the disk: what changes during a write goes with the
// next, and what was refused is not lost.
func TestTextsAreWrittenBehind(t *testing.T) {
	k := &slowKeeper{kept: map[string]string{}, writes: make(chan map[string]string), answer: make(chan error)}
	c := &textCopy{keeper: k}
	c.waiting = map[string]string{"fieldkit.a": "1", turnKey: "1"}
	done := make(chan struct{})
	write := func() { c.write(); done <- struct{}{} }
	go write()
	require.Equal(t, "1", (<-k.writes)["fieldkit.a"])
	c.writing = true
	c.note("fieldkit.a", "1-", "2")
	c.note("fieldkit.a", "1-3", "3")
	k.answer <- nil
	require.Equal(t, map[string]string{"fieldkit.a": "1-3", turnKey: "3"}, <-k.writes, "one write for both")
	k.answer <- errors.New("the disk is full")
	<-done
	assert.Equal(t, "1", k.kept["fieldkit.a"])

	c.writing = true
	c.note("fieldkit.b", "2", "4")
	go write()
	require.Equal(t, map[string]string{"fieldkit.a": "1-3", "fieldkit.b": "2", turnKey: "4"}, <-k.writes, "the refused one too")
	k.answer <- nil
	<-done
	assert.Empty(t, c.waiting)
	assert.False(t, c.writing)
	assert.Equal(t, map[string]string{"fieldkit.a": "1-3", "fieldkit.b": "2", turnKey: "4"}, k.kept)
}
