package worksheets

// What a log says of each question.

import (
	"os"
	"strings"
	"testing"
)

func TestALogHasTheFirstWordsOfAQuestionWithItsMark(t *testing.T) {
	for prompt, want := range map[string]string{
		"Mean of your five stops":                            "Mean of your five stops",
		"The spread: how far from the first to the last?":    "The spread",
		"How far does it go, from the line to the gate?":     "How far does it go",
		"Is that van better than yours? Say why.":            "Is that van better than yours?",
		"Measure it twice. Write down both.":                 "Measure it twice",
		"¿Es esa furgoneta mejor que la tuya? Di por qué.":   "¿Es esa furgoneta mejor que la tuya?",
		"¿A qué distancia, de la línea a la compuerta?":      "¿A qué distancia, de la línea a la compuerta?",
		"¿A qué distancia, más o menos? Di por qué, y cómo.": "¿A qué distancia, más o menos?",
		"Cette camionnette est-elle meilleure ? Dites-le.":   "Cette camionnette est-elle meilleure ?",
		"Why? Say it.": "Why? Say it.",
	} {
		if got := inShort(prompt); got != want {
			t.Errorf("%s: %s", prompt, got)
		}
	}
	script, err := os.ReadFile("../site/scripts/log.js")
	if err != nil || !strings.Contains(string(script), "detail = /"+detailPattern+"/s;") {
		t.Error("the page's log shortens by another rule", err)
	}
}
