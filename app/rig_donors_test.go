package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func TestDonors(t *testing.T) {
	k := data.DemoKit()
	rows := viewDonors(k)
	require.Len(t, rows, len(k.Donors))
	for _, r := range rows {
		assert.Positive(t, r.parts, r.donor.ID)
		v := viewDonor(k, r.donor.ID)
		assert.Len(t, v.parts, r.parts)
		assert.Len(t, v.uses, r.parts)
	}
	assert.Empty(t, viewDonors(fieldkit.Kit{}))
	assert.True(t, viewDonor(k, "no-such-donor").missing)
}

func TestDonorFormWithNothingTypedGivesTheSameDonor(t *testing.T) {
	for _, d := range data.DemoKit().Donors {
		f := onForm(donorFields(d), nil)
		got, ok := readDonor(f, d)
		require.True(t, ok, "%v", f.wrong)
		assert.Equal(t, d, got)
	}
}

func TestDonorForm(t *testing.T) {
	f := onForm(donorFields(fieldkit.Donor{}), map[string]string{
		"make": " Garrund ", "model": "Stonecrop", "yearFrom": "1996", "yearTo": "1998", "drive": "4x4", "rear": "dual", "vin": "1hg cm826 33a"})
	d, ok := readDonor(f, fieldkit.Donor{ID: "d"})
	require.True(t, ok)
	assert.Equal(t, "1996-1998 Garrund Stonecrop 4x4 dual rear wheels", d.Title())
	assert.Equal(t, "1HGCM82633A", d.VIN)
	_, err := edited(t, data.DemoKit(), func(e *journal.Edit) error {
		e.Put(d)
		return nil
	})
	assert.NoError(t, err)

	for name, value := range map[string]string{"make": "", "model": " ", "yearFrom": "96", "yearTo": "1990"} {
		f := onForm(f.values, map[string]string{name: value})
		_, ok := readDonor(f, fieldkit.Donor{})
		assert.False(t, ok, name)
		assert.Len(t, f.wrong, 1, name)
		assert.NotEmpty(t, f.wrong[name], name)
	}
}

func TestDonorFormGoesBackToThePartThatAsked(t *testing.T) {
	assert.Equal(t, "/rig/donors", (&donorScreen{}).back("d"))
	assert.Equal(t, "/rig/part/edit?donor=d&position=p", (&donorScreen{part: "new", at: "p"}).back("d"))
	assert.Equal(t, "/rig/part/edit?id=pump&position=p", (&donorScreen{part: "pump", at: "p"}).back(""))
}
