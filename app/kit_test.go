package app

import (
	"context"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func TestKitWords(t *testing.T) {
	assert.Equal(t, "Hobnail and Wicket: 2 rigs, 117 positions, 100 parts, 26 failures, 62 readings, 3 photos.", kitWords(data.DemoKit(), 3))
	assert.Equal(t, "Mine: 1 rig, 0 positions, 0 parts, 0 failures, 0 readings.", kitWords(fieldkit.Kit{Name: "Mine", Rigs: make([]fieldkit.Rig, 1)}, -1))
	assert.Contains(t, kitWords(fieldkit.Kit{}, 1), "1 photo.")
}

// While a kit is being written no other file is taken up, and that is said; the kit on
// offer takes the place of a file that is still being checked.
func TestOfferWhileBusy(t *testing.T) {
	offer := data.DemoKit()
	kept.offer = &offer
	defer func() { kept.offer = nil }()
	b := backupBlock{busy: "Restoring …"}
	b.chooseOffer(app.Context{})
	require.ErrorContains(t, b.err, "another file is being worked on")
	assert.Nil(t, b.chosen)
	assert.Equal(t, "Restoring …", b.busy)

	b = backupBlock{busy: checkingBackup, choices: 1}
	b.chooseOffer(app.Context{})
	require.NoError(t, b.err)
	require.NotNil(t, b.chosen)
	assert.Empty(t, b.busy)
	assert.Equal(t, 2, b.choices, "what comes of the file chosen before is dropped")
}

// The name of a file comes from outside: marks that turn the writing round are not shown,
// nor is a name of hundreds of characters.
func TestShownName(t *testing.T) {
	assert.Equal(t, "kitpiz.exe", shownName("kit\u202epiz\u200b.exe"))
	assert.Equal(t, "a b", shownName("a\nb"))
	assert.Len(t, []rune(shownName(strings.Repeat("Ж", 300)+".zip")), 61)
	assert.Equal(t, "trail-field-kit-2026-11-26.zip", shownName("trail-field-kit-2026-11-26.zip"))
}

func TestViewHistory(t *testing.T) {
	ctx, session, ids := context.Background(), openTest(t, data.DemoKit()), testIDs()
	do := func(what string) string {
		e, err := session.Do(ctx, what, testMoment, ids, func(e *journal.Edit) error {
			e.SetName(what)
			return nil
		})
		require.NoError(t, err)
		return e.ID
	}
	history := func() []historyRow {
		list, err := session.History(ctx, rowsAtOnce)
		require.NoError(t, err)
		return viewHistory(list)
	}
	require.Len(t, history(), 1)
	assert.Empty(t, history()[0].undo, "the beginning of a kit cannot be taken back")
	assert.Empty(t, history()[0].when, "nobody wrote down when that was")

	first, second := do("first name"), do("second name")
	rows := history()
	require.Len(t, rows, 3)
	assert.Equal(t, []string{"Second name", "First name"}, []string{rows[0].what, rows[1].what})
	assert.Equal(t, []string{second, first}, []string{rows[0].undo, rows[1].undo})
	assert.Contains(t, rows[0].when, "14 May 2026")

	undone, err := session.Undo(ctx, second, testMoment, ids)
	require.NoError(t, err)
	rows = history()
	require.Len(t, rows, 4)
	assert.Equal(t, undone.ID, rows[0].undo, "taking back can be taken back")
	assert.Empty(t, rows[1].undo, "what was taken back is not offered again")
	assert.Contains(t, rows[1].when, "taken back")
	assert.Equal(t, first, rows[2].undo)

	_, err = session.Undo(ctx, undone.ID, testMoment, ids)
	require.NoError(t, err)
	assert.Equal(t, second, history()[2].undo, "and stands again after that")
	assert.Empty(t, viewHistory(nil))
}
