package app

import (
	"context"

	"trailfieldkit/app/browserstore"
	"trailfieldkit/fieldkit/journal"
)

// databaseNames ties the kits of this device to their databases.
var databaseNames = map[string]string{ownKit: "trail-field-kit", demoKit: "trail-field-kit-demo"}

func openKeeper(ctx context.Context, which string) (journal.Store, error) {
	return browserstore.Open(ctx, databaseNames[which])
}

// openTexts opens the second copy of this device's texts.
func openTexts(ctx context.Context) (textKeeper, error) {
	return browserstore.OpenTexts(ctx, "trail-field-kit-device")
}

func deleteKit(ctx context.Context, which string) error {
	return browserstore.Delete(ctx, databaseNames[which])
}

func watchOtherTabs(which string, changed func()) (stop func()) {
	return browserstore.Watch(databaseNames[which], changed)
}

// storageFacts asks whether the browser keeps this site's data for good, and how
// much of its room is used. What a browser does not tell is nothing.
func storageFacts() (forGood bool, used, limit int64) {
	forGood, _ = browserstore.Persisted(context.Background())
	room, _ := browserstore.Estimate(context.Background())
	return forGood, room.Used, room.Limit
}

// persistStorage asks the browser to keep this site's data for good; it may ask
// the person, and may say no.
func persistStorage() { _, _ = browserstore.Persist(context.Background()) }
