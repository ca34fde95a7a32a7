//go:build !js

package app

import (
	"context"
	"errors"

	"trailfieldkit/fieldkit/journal"
)

// Outside a browser kits are kept in memory: screens are tested natively.
func openKeeper(context.Context, string, int, func(journal.News)) (journal.Store, int, error) {
	return journal.NewMemory(), 0, nil
}

func latestSecond(context.Context, string) (copy int) { return 0 }

func openWreck(context.Context, storeAt) (wreck, error) {
	return nil, errors.New("there is no browser to look into")
}

func openTexts(context.Context) (textKeeper, error) {
	return nil, errors.New("there is no browser to keep texts in")
}

func deleteKit(context.Context, string, int) error { return nil }

func watchOtherTabs(string, func()) (stop func()) { return func() {} }

func storageFacts() (forGood bool, used, limit int64) { return false, 0, 0 }

func persistStorage() {}
