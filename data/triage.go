package data

import (
	_ "embed"
	"sync"

	"trailfieldkit/fieldkit/triage"
)

//go:embed triage.json
var triageFile []byte

// Triage gives what leads from a symptom to a cause. It is read once; a broken file
// panics, which a test rules out as it does a broken rule of triage.Load. It is
// shared and must not be changed.
var Triage = sync.OnceValue(func() triage.Book {
	book, err := triage.Read("triage.json", triageFile)
	if err != nil {
		panic("data: " + err.Error())
	}
	return book
})
