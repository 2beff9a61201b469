package job

import (
	"os"
	"path/filepath"
)

// RigNamed is the file of a rig that is named as one types it: a file, or a name alone,
// which is that of NAME.toml here or beside the shot. What is none of them stays as it
// is, for whoever reads it to say so.
func RigNamed(name, shot string) string {
	if name == "" || filepath.Ext(name) != "" {
		return name
	}
	file := name + ".toml"
	for _, one := range []string{name, file, filepath.Join(filepath.Dir(shot), file)} {
		if is, err := os.Stat(one); err == nil && is.Mode().IsRegular() {
			return one
		}
	}
	return name
}
