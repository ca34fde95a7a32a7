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

func deleteKit(ctx context.Context, which string) error {
	return browserstore.Delete(ctx, databaseNames[which])
}

func watchOtherTabs(which string, changed func()) (stop func()) {
	return browserstore.Watch(databaseNames[which], changed)
}
