package cli

import "testing"

func TestTheReadmeNamesEveryKeyOfSpin(t *testing.T) {
	keysInReadme(t, "Spin", "spin", "--period", "7.3 s")
}
