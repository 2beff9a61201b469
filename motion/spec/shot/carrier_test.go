package shot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/shot"
)

const (
	product = "[scene.product]\nsides = 6\nradius = \"45 mm\"\n"
	still   = "[axis.table]\nat = \"0 deg\"\n"
	turning = "[axis.table]\nturns = \"1/6\"\nsymmetry = 6\n"
	asTable = "[scene.axis.table]\nrole = \"table\"\n"
	stand   = "[spin.display]\n"
)

// What carries the product: what turns, where only one thing does; a table that
// holds still is under the stand, or beside it.
func TestWhatCarriesTheProduct(t *testing.T) {
	for text, want := range map[string]string{
		product:                           "",
		product + still:                   "table",
		product + turning:                 "table",
		product + stand:                   "display",
		product + still + stand:           "display",
		product + still + asTable + stand: "display",
		product + "on = \"table\"\n" + turning + stand:                                                                             "table",
		product + "on = \"display\"\n" + turning + stand:                                                                           "display",
		product + "on = \"display\"\n" + turning + stand + "[spin.fan]\n":                                                          "display",
		product + "on = \"fan\"\n" + still + stand + "[spin.fan]\n":                                                                "fan",
		product + "on = \"table\"\n" + still + stand:                                                                               "table",
		product + "on = \"display\"\n" + turning + asTable + stand:                                                                 "display",
		product + turning + stand + "[scene.axis.table]\nrole = \"none\"\n":                                                        "display",
		product + turning + "[axis.other]\nturns = 1\n[scene.axis.other]\nrole = \"table\"\n[scene.axis.table]\nrole = \"none\"\n": "other",
	} {
		s, err := shot.Decode("f", []byte(base+text), nil)
		require.NoError(t, err, text)
		assert.Equal(t, want, s.Scene.Stand.TableAxis, text)
	}
}

func TestTheScenesWordForAStandIsTold(t *testing.T) {
	s, err := shot.Decode("f", []byte(base+product+still+asTable+stand), nil)
	require.NoError(t, err)
	assert.Contains(t, s.Defaults, shot.Default{Key: "scene.product.on", Value: "display", Why: "it turns, and axis table holds still"})
	assert.EqualValues(t, 6, s.Spins[0].Symmetry, "the scene's product stands on it")
}

// More than one thing that turns is asked about; an answer that cannot be is told so.
func TestWhatCarriesTheProductIsAsked(t *testing.T) {
	for text, want := range map[string]string{
		product + turning + stand:                                                        `f:12:8: scene.product.on is missing: table and display turn, and each could carry the product; say which one does, such as on = "display"`,
		product + turning + asTable + stand + "[spin.fan]\n":                             `f:12:8: scene.product.on is missing: table and display and fan turn, and each could carry the product; say which one does, such as on = "display"`,
		product + stand + "[spin.fan]\n":                                                 `f:12:8: scene.product.on is missing: display and fan turn, and each could carry the product; say which one does, such as on = "display"`,
		"[camera]\niso = 800\n" + stand + "[spin.fan]\n":                                 `f:14:7: scene.product.on is missing: display and fan turn, and each could carry the product; say which one does, such as on = "display"`,
		product + "on = \"fan\"\n" + still + stand:                                       `f:15:6: scene.product.on "fan" is no stand and no axis in degrees of this shot; it has table, display`,
		product + "on = \"rail\"\n" + still + stand:                                      `f:15:6: scene.product.on "rail" is no stand and no axis in degrees of this shot; it has table, display`,
		product + "on = \"table\"\n" + turning + "[scene.axis.table]\nrole = \"none\"\n": `f:15:6: scene.product.on "table" has the role none in [scene.axis.table]; role = "table" carries the product`,
		product + still + "[spin.table]\n":                                               `f:17:7: spin.table has the name of an axis`,
	} {
		_, err := shot.Decode("f", []byte(base+text), nil)
		var list fault.List
		require.ErrorAs(t, err, &list, text)
		require.Len(t, list, 1, err.Error())
		assert.Contains(t, err.Error(), want, text)
	}
}
