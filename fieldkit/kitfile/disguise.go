package kitfile

import "trailfieldkit/fieldkit"

// CheckReading lists the texts of a kit that are not what they read like: those that hold
// characters that are not seen, and part numbers with letters of two scripts. A kit with
// such still loads: its owner may have written them before they were refused, and a text
// that came in is not changed behind anybody's back.
func CheckReading(k fieldkit.Kit) []Problem {
	c := newChecker(&k, &faults{})
	c.disguised = &faults{}
	c.kitWhole()
	return inKit(k, c.disguised)
}

// readsAs notes a text that is not what it reads like.
func (c *checker) readsAs(s string, lines bool, at *trail) {
	err := fieldkit.ShowHidden(s, lines)
	if err == nil && at != nil && at.token == "value" && at.up != nil && at.up.up != nil && at.up.up.token == "numbers" {
		err = fieldkit.MixedScript(s)
	}
	if err != nil {
		what, do := refusal(err)
		c.disguised.add(at.pointer(), nowhere, fieldkit.BadInput, what, do)
	}
}
