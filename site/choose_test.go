package site

// The page reads what Go has scrambled.

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os/exec"
	"testing"
)

const reading = `
const vm = require("vm"), fs = require("fs");
globalThis.document = { querySelectorAll: () => [] };
vm.runInThisContext(fs.readFileSync("scripts/choose.js", "utf8"), "choose");
const calls = JSON.parse(fs.readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(calls.map(([text, by]) => trundle.reply(text, by))));
`

func TestThePageReadsWhatIsScrambled(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	letters := []rune("ab +-*<>\"'é½→😀π“”\u00a0")
	some := func() string {
		text := []rune("x") // blanks at its end are not kept
		for range random.IntN(200) {
			text = append([]rune{letters[random.IntN(len(letters))]}, text...)
		}
		return string(text)
	}
	var calls [][2]string
	var want []string
	for range 2000 {
		text, by := some(), some()
		want = append(want, text)
		calls = append(calls, [2]string{scrambled(text+"   ", by), by})
	}
	input, err := json.Marshal(calls)
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", "-e", reading)
	node.Stdin = bytes.NewReader(input)
	out, err := node.Output()
	if err != nil {
		t.Fatal("this test needs node: ", err)
	}
	var got []string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for i, text := range want {
		if got[i] != text {
			t.Fatalf("%q is read as %q", text, got[i])
		}
	}
}
