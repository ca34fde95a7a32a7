package journal_test

import (
	"testing"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/journal/journaltest"
)

func TestMemory(t *testing.T) {
	kept := map[string]*journal.Memory{}
	journaltest.Run(t, func(t *testing.T, name string) journal.Store {
		if kept[name] == nil {
			kept[name] = journal.NewMemory()
		}
		return kept[name].Handle()
	})
}
