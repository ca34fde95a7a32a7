package triage

import (
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// Format names the format of the file and Version the version this program reads; a
// file of another is refused.
const (
	Format  = "trail-field-kit triage"
	Version = "1.0"
)

type file struct {
	Format    string     `json:"format"`
	Version   string     `json:"version"`
	Source    string     `json:"source"` // what the weights rest on
	Stops     []Stop     `json:"stops"`
	Symptoms  []Symptom  `json:"symptoms"`
	Questions []Question `json:"questions"`
	Causes    []Cause    `json:"causes"`
}

// Load reads and checks a book; name is what messages call it. The error is a
// *kitfile.Problems that lists every rule broken with its line and pointer, and the
// book is empty then.
//
// The rules: IDs are small letters, figures and dashes, and stand once in their list;
// all six stop signs are there, each with what to do at once; symptoms are of one of
// the Senses; a question has two options or more, says how to look, and its usual
// shares make a hundred; causes name symptoms, questions and options that exist, with
// shares that do not exceed a hundred; every symptom begins some cause. Whether
// repairs, part kinds and traits exist is asked with CheckAgainst.
func Load(name string, data []byte) (Book, error) {
	book, err := Read(name, data)
	if err != nil {
		return Book{}, err
	}
	if problems := check(book); len(problems) > 0 {
		return Book{}, kitfile.Place(name, data, problems)
	}
	return book, nil
}

// Read is Load for a file known to keep the rules: they are not checked again. Every
// field is, and a file of another format or version is refused.
func Read(name string, data []byte) (Book, error) {
	var f file
	if err := kitfile.Decode(name, data, &f); err != nil {
		return Book{}, err
	}
	switch {
	case f.Format != Format:
		return Book{}, kitfile.Place(name, data, []kitfile.Problem{{Pointer: "/format", What: fmt.Sprintf("%q is not the format of triage", f.Format), Do: fmt.Sprintf("choose a file whose format is %q", Format)}})
	case f.Version != Version:
		return Book{}, kitfile.Place(name, data, []kitfile.Problem{{Kind: fieldkit.TooNew, Pointer: "/version", What: fmt.Sprintf("the file is of version %q, this program reads %s", f.Version, Version), Do: "update this program"}})
	}
	return Book{f.Stops, f.Symptoms, f.Questions, f.Causes}, nil
}
