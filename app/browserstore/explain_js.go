package browserstore

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// explain says in the user's words why the browser did not do something; doing is
// what was tried: "write this down".
func explain(err error, doing string) error {
	var t thrown
	if err == nil || !errors.As(err, &t) {
		return err
	}
	e := &fieldkit.Error{Kind: fieldkit.Storage, What: "the browser could not " + doing + " (" + t.Error() + ")", Do: "try again", Cause: err}
	switch {
	case t.name == "QuotaExceededError":
		e.What = "the phone's storage is full, so this was not kept"
		e.Do = "free some space and try again, or leave the photo out"
		e.Cause = fmt.Errorf("%w: %w", journal.ErrFull, err)
	case t.name == "VersionError":
		e.Kind = fieldkit.TooNew
		e.What = "this kit was kept by a newer version of the app"
		e.Do = "close all tabs of the app and open it again with signal, so that it updates"
	case badBacking(t):
		e.What = "the browser could not open its database (" + t.Error() + ")"
		e.Do = "close the browser and open it again; nothing kept was touched"
	case lost(t):
		e.What = "the browser cut the connection to its database while trying to " + doing
		e.Do = "try again; if it happens once more, close the app and open it again"
	}
	return e
}

// lost reports that the connection is dead and a new one may do: WebKit cuts it in
// the background, Chromium when the site's data is cleared.
func lost(err error) bool {
	var t thrown
	if !errors.As(err, &t) {
		return false
	}
	switch t.name {
	case "InvalidStateError", "AbortError", "TransactionInactiveError":
		return true
	}
	for _, sign := range []string{"connection lost", "server lost", "connection is closing", "without an in-progress transaction"} {
		if strings.Contains(strings.ToLower(t.message), sign) {
			return true
		}
	}
	return false
}

// badBacking reports that the browser has trouble with its files, which often
// passes.
func badBacking(err error) bool {
	var t thrown
	return errors.As(err, &t) && strings.Contains(strings.ToLower(t.message), "backing store")
}

var (
	errNoDatabase = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "this browser window keeps no data", Do: "leave private mode, or allow the site to store data"}
	errOtherTabs = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "the kit cannot be opened: the browser does not answer", Do: "close the app's other tabs and try again"}
	errNotDurable = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "this browser does not promise to keep what is written when power fails", Do: "use another browser"}
	errForeign = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "the database does not look as the app made it", Do: "save a backup if one is open elsewhere, then restore it here"}
	errSilent = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "the browser does not answer", Do: "try again; if it happens once more, close the app and open it again",
		Cause: context.DeadlineExceeded}
)
