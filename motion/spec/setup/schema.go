package setup

import "embed"

//go:embed *.schema.json
var schemas embed.FS

// Schemas are the JSON schemas of a set-up file and of the files of a shelf, by the names
// of their files, for editors that help while one is written. A test makes them of the
// tags of Raw and its like (-update).
func Schemas() map[string][]byte {
	out := map[string][]byte{}
	for _, kind := range []string{"set-up", "camera", "lens", "lamp"} {
		name := kind + ".schema.json"
		out[name], _ = schemas.ReadFile(name) // it is embedded
	}
	return out
}
