package app

import (
	"context"

	"trailfieldkit/app/browserstore"
	"trailfieldkit/fieldkit/journal"
)

func init() { journal.SumWith(browserstore.Sum) }

// databaseName ties a kit of this device to its database. A kit that was gone on with
// after damage has another one than the damaged, which stays as it is.
func databaseName(which string, copy int) string {
	name := map[string]string{ownKit: "trail-field-kit", demoKit: "trail-field-kit-demo"}[which]
	if copy > 1 {
		name += "-" + itoa(copy)
	}
	return name
}

func openKeeper(ctx context.Context, which string, copy int) (journal.Store, error) {
	return browserstore.Open(ctx, databaseName(which, copy))
}

// openWreck opens what is left of a kit that does not open.
func openWreck(ctx context.Context, which string, copy int) (wreck, error) {
	return browserstore.OpenWreck(ctx, databaseName(which, copy))
}

// openTexts opens the second copy of this device's texts.
func openTexts(ctx context.Context) (textKeeper, error) {
	return browserstore.OpenTexts(ctx, "trail-field-kit-device")
}

func deleteKit(ctx context.Context, which string, copy int) error {
	return browserstore.Delete(ctx, databaseName(which, copy))
}

func watchOtherTabs(which string, changed func()) (stop func()) {
	return browserstore.Watch(databaseName(which, copyOf(which)), changed)
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
