package app

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit/journal"
)

// What happens to the second copy later is said if it concerns what is in the kit; that
// there is no room is only noted.
func TestNewsOfTheSecondCopy(t *testing.T) {
	assert.ErrorContains(t, lateNotice(journal.News{Regained: 3}), "entries: 3")
	assert.ErrorContains(t, lateNotice(journal.News{Apart: true}), "set aside")
	assert.NoError(t, lateNotice(journal.News{NoRoom: true}))
	assert.False(t, noRoomToday())
	textsInMemory = map[string]string{}
	defer func() { textsInMemory = nil }()
	new(store).hearOfSecond(journal.News{NoRoom: true})
	assert.True(t, noRoomToday())
}

// The screen Kit says how whole the copy is wherever there can be one.
func TestWordsForTheSecondCopy(t *testing.T) {
	for state := journal.CopyBehind; state < journal.CopyNotThere; state++ {
		assert.NotEmpty(t, copyWords[state])
	}
	assert.Empty(t, copyWords[journal.CopyNotThere])
	assert.Empty(t, (&store{keeper: journal.NewMemory()}).secondWords(), "the demo has none")
}
