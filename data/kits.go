package data

import (
	_ "embed"
	"sync"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

var (
	//go:embed demo.json
	demoFile []byte
	//go:embed blank.json
	blankFile []byte
	//go:embed kit.schema.json
	schemaFile string
)

// DemoKit gives a kit to look around in: an invented crew of two rigs with their
// donors, spares, trips and log. It panics only when the embedded file is broken.
var DemoKit = sync.OnceValue(func() fieldkit.Kit { return embedded("demo.json", demoFile) })

var blankKit = sync.OnceValue(func() fieldkit.Kit { return embedded("blank.json", blankFile) })

// BlankKit gives a kit to fill in, of the given ID: one rig with its systems and
// the positions most rigs have, nothing fitted, two empty bins.
func BlankKit(id string) fieldkit.Kit {
	kit := blankKit()
	kit.ID = id
	return kit
}

// Schema gives the JSON Schema (draft 2020-12) of kit files.
func Schema() []byte { return []byte(schemaFile) }

// embedded reads a kit that kitfile.Load takes, as the tests prove, without
// checking it again.
func embedded(name string, file []byte) (kit fieldkit.Kit) {
	if err := kitfile.Decode(name, file, &kit); err != nil {
		panic("data: the embedded kit is broken: " + err.Error())
	}
	return kit
}
