package setup

import (
	"seamrail/motion/base/source"
	"seamrail/motion/spec/shot"
)

// Raw is a set-up file as it is written.
type Raw struct {
	Place   source.Place     `toml:"-"`
	SetUp   source.Text      `toml:"set-up" jsonschema:"required,example=Fernhollow on the small table" jsonschema_description:"What the set-up is called."`
	Setup   source.Texts     `toml:"setup" jsonschema_description:"Other set-up files, as seen from this one, that this one lies over; of several, a later one lies over an earlier one."`
	Clock   RawClock         `toml:"clock" jsonschema_description:"Frame rates that all its shots have."`
	Take    RawTake          `toml:"take" jsonschema_description:"How all its shots are filmed."`
	Rig     RawRig           `toml:"rig" jsonschema_description:"The machine that all its shots are filmed on."`
	Camera  *shot.RawCamera  `toml:"camera" jsonschema_description:"The camera and its lens, for what a move does to the picture."`
	Scene   *shot.RawScene   `toml:"scene" jsonschema_description:"What stands before the camera and around it."`
	Picture *shot.RawPicture `toml:"picture" jsonschema_description:"What counts as a good picture, where it is not what is usual."`
}

// What a set-up leaves to its shots.
const (
	shotsOwn     = "belongs into a shot, and this is a set-up"
	writeItThere = "write it into each shot that lies over this file"
)

// Elsewhere are the keys of shots.
func (Raw) Elsewhere() (other any, bound, fit string) { return shot.Raw{}, shotsOwn, writeItThere }

// RawClock is what a set-up says under [clock].
type RawClock struct{ shot.RawRates }

// Elsewhere are the keys of shots.
func (RawClock) Elsewhere() (other any, bound, fit string) {
	return shot.RawClock{}, shotsOwn, writeItThere
}

// RawTake is what a set-up says under [take].
type RawTake struct{ shot.RawLength }

// Elsewhere are the keys of shots.
func (RawTake) Elsewhere() (other any, bound, fit string) {
	return shot.RawTake{}, shotsOwn, writeItThere
}

// RawRig is what a set-up says under [rig].
type RawRig struct {
	File source.Text `toml:"file" jsonschema:"example=bench-rail.toml" jsonschema_description:"The rig's file, as seen from this one."`
}

// Elsewhere are the keys of shots.
func (RawRig) Elsewhere() (other any, bound, fit string) {
	return shot.RawRig{}, "belongs into the rig's own file", "name that here: file = \"bench-rail.toml\""
}

// How something is set, which no shelf says.
const setAs = "is how it is set, and this file is what it is"

// RawCamera is a camera file.
type RawCamera struct {
	Camera source.Text `toml:"camera" jsonschema:"required,example=Fernhollow camera" jsonschema_description:"What the camera is called."`
	shot.RawBody
}

// Elsewhere are the keys of shots and set-ups.
func (RawCamera) Elsewhere() (other any, bound, fit string) {
	return shot.RawCamera{}, setAs, "write it under [camera] in the set-up or the shot"
}

// RawLens is a lens file.
type RawLens struct {
	Lens source.Text `toml:"lens" jsonschema:"required,example=Fernhollow 100 mm" jsonschema_description:"What the lens is called."`
	shot.RawGlass
}

// Elsewhere are the keys of shots and set-ups.
func (RawLens) Elsewhere() (other any, bound, fit string) { return RawCamera{}.Elsewhere() }

// RawLamp is a lamp file.
type RawLamp struct {
	Lamp source.Text `toml:"lamp" jsonschema:"required,example=Fernhollow panel" jsonschema_description:"What the lamp is called."`
	shot.RawBulb
}

// Elsewhere are the keys of shots and set-ups.
func (RawLamp) Elsewhere() (other any, bound, fit string) {
	return shot.RawLamp{}, setAs, "write it under [[scene.lamps]] in the set-up or the shot"
}
