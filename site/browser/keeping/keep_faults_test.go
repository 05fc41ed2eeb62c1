package keeping_test

// What the page keeps where the storage is refused, relents, breaks, is lost or is full.

import (
	"fmt"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

// refusals are the ways in which browsers keep a page from its storage.
var refusals = map[string]string{
	"missing": `Object.defineProperty(globalThis, "indexedDB", {value: undefined})`,
	"throws": `Object.defineProperty(globalThis, "indexedDB",
		{get() { throw new DOMException("no", "SecurityError"); }})`,
	"refuses": `IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); }`,
	"fails": `IDBFactory.prototype.open = () => {
		const request = {};
		setTimeout(() => request.onerror(new Event("error")));
		return request;
	}`,
	"never answers": `IDBFactory.prototype.open = () => ({})`,
	"has no shelf":  `IDBDatabase.prototype.transaction = () => { throw new DOMException("no", "NotFoundError"); }`,
}

func testRefused(t *testing.T, s shelf) {
	for how, refusal := range refusals {
		t.Run(how, func(t *testing.T) {
			const blocked = `{"fault": "blocked"}`
			a := s.odd(t, refusal)
			follow(t, []stop{
				{a, `[store.fault, store.team, texts]`, `["blocked", "", {}]`},
				{a, `store.put("n", "5")`, blocked},
				{a, `store.put("n", "5.88")`, blocked},
				{a, `store.put("@kit", "coot")`, blocked},
				{a, `store.enter("Otters")`, `{"n": "5.88", "@kit": "coot"}`},
				{a, `store.teams()`, `["Otters"]`},
				{a, `store.take({"03-rotations": {"n": "6"}})`, `{"clash": 1}`},
				{a, `store.take({"04-error": {"e": "0.2"}})`, blocked},
				{a, `store.whole()`, `{"team": "Otters", "pack": "` + s.pack +
					`", "lessons": {"03-rotations": {"n": "5.88"}, "04-error": {"e": "0.2"}, "": {"@kit": "coot"}}}`},
				{a, `store.clear()`, blocked},
				{a, `store.enter("Otters")`, `{"@kit": "coot"}`},
				{a, `store.clear(true)`, blocked},
				{a, `store.teams()`, `[]`},
			})
		})
	}
}

// testRelents has a browser that refuses its storage at first, as one on a full disk.
func testRelents(t *testing.T, s shelf) {
	a := s.odd(t, `{
		const open = IDBFactory.prototype.open;
		IDBFactory.prototype.open = function (...name) {
			if (!globalThis.relents) throw new DOMException("no", "UnknownError");
			return open.apply(this, name);
		};
	}`)
	b := s.one(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, `{"fault": "blocked"}`},
		{b, `store.put("m", "1")`, kept},
		{a, `store.put("m", "2")`, `{"fault": "blocked"}`},
		{a, `(globalThis.relents = true, store.put("C", "20.4"))`, kept},
		{a, `store.whole().then((all) => [store.fault, all.lessons])`,
			`["", {"03-rotations": {"n": "5.88", "m": "2", "C": "20.4"}}]`},
		{b, `store.enter("")`, `{"n": "5.88", "m": "1", "C": "20.4"}`},
	})
}

func testBroken(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{a, `(globalThis.transaction = IDBDatabase.prototype.transaction, IDBDatabase.prototype.transaction = null, ` +
			`store.put("C", "20"))`, `{"fault": "blocked"}`},
		{a, `store.put("C", "20.4")`, `{"fault": "blocked"}`},
		{a, `store.whole().then((all) => all.lessons)`, `{"03-rotations": {"n": "5.88", "C": "20.4"}}`},
		{a, `(IDBDatabase.prototype.transaction = transaction, store.put("m", "1"))`, kept}, // C goes along
		{a, `store.whole().then((all) => all.lessons)`, `{"03-rotations": {"n": "5.88", "C": "20.4", "m": "1"}}`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `texts`, `{"n": "5.88", "C": "20.4", "m": "1"}`}})
}

func testLostConnection(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{b, throwAway("indexedDB"), `"gone"`},
		{a, `store.put("C", "20.4")`, kept},
		{b, `store.enter("")`, `{"n": "5.88", "C": "20.4"}`},
	})
}

// throwAway has a tab lose one of the two places as Chromium loses it.
func throwAway(place string) string {
	return `(async () => {
		const place = await ` + place + `;
		return new Promise((done) => { place.deleteDatabase("trundle").onsuccess = () => done("gone"); });
	})()`
}

func testTwoPlaces(t *testing.T, s shelf) {
	a := s.one(t)
	const spare = `navigator.storageBuckets.open("trundle").then((bucket) => bucket.indexedDB)`
	follow(t, []stop{
		{a, `store.put("m", "1")`, kept},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("n", "5.9")`, kept},
		{a, `store.clear()`, kept},
		{a, `store.put("n", "6")`, kept},
	})
	for _, place := range []string{"indexedDB", spare, "indexedDB"} {
		follow(t, []stop{{a, throwAway(place), `"gone"`}})
		s.lesson(t, a, "03-rotations")
		follow(t, []stop{{a, `texts`, `{"n": "6"}`}})
	}
}

func testFull(t *testing.T, s shelf) {
	a, b := s.two(t)
	fill := func(full bool) {
		browser.Ask[chromedp.Void](t, a, fmt.Sprintf(`(() => {
			globalThis.write ??= IDBObjectStore.prototype.put;
			IDBObjectStore.prototype.put = !%[1]t ? write : function () {
				const error = { value: new DOMException("no room", "QuotaExceededError"), configurable: true };
				Object.defineProperty(this.transaction, "error", error).abort();
			};
			globalThis.noting ??= Storage.prototype.setItem;
			Storage.prototype.setItem = !%[1]t ? noting : () => { throw new DOMException("no room", "QuotaExceededError") };
		})()`, full))
	}
	const full = `{"fault": "full"}`
	follow(t, []stop{{a, `store.put("n", "5")`, kept}, {a, `store.put("x", "1")`, kept}})
	fill(true)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, full},
		{a, `store.put("C", "20.4")`, full},
		{a, `store.take({"04-error": {"e": "0.2"}})`, full},
		{a, `store.fault`, `""`},
		{a, `store.enter("")`, `{"n": "5.88", "C": "20.4", "x": "1"}`},
		{a, `store.whole().then((all) => all.lessons)`,
			`{"03-rotations": {"n": "5.88", "C": "20.4", "x": "1"}, "04-error": {"e": "0.2"}}`},
	})
	follow(t, []stop{{b, `store.enter("")`, `{"n": "5", "x": "1"}`}})
	fill(false)
	follow(t, []stop{
		{b, `store.put("C", "21")`, kept},
		{a, `store.put("x", "2")`, kept}, // n and e now find room; C is another tab's
		{b, `store.enter("")`, `{"n": "5.88", "C": "21", "x": "2"}`},
		{b, `store.whole().then((all) => all.lessons)`,
			`{"03-rotations": {"n": "5.88", "C": "21", "x": "2"}, "04-error": {"e": "0.2"}}`},
		{a, `store.put("C", "20.4")`, `{"other": "21"}`},
	})
}

// testQuota is testFull with a device that is full indeed.
func testQuota(t *testing.T, s shelf) {
	limit := func(bytes float64) {
		browser.Order(t, s.first, storage.OverrideQuotaForOrigin,
			storage.OverrideQuotaForOriginParams{Origin: strings.TrimSuffix(s.root, "/"), QuotaSize: &bytes})
	}
	limit(20_000)
	a := s.one(t)
	follow(t, []stop{
		{a, `store.put("n", "5")`, kept},
		{a, `store.put("n", "5".repeat(3e6))`, `{"fault": "full"}`},
		{a, `store.whole().then((all) => all.lessons["03-rotations"].n.length)`, `3000000`},
	})
	limit(1e9)
	follow(t, []stop{{a, `store.put("C", "20.4")`, kept}, {a, `store.teams()`, `[]`}})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[texts.n.length, texts.C]`, `[3000000, "20.4"]`}})
}
