// Asks general search libraries the graded queries. Each is asked in the way its own
// documentation recommends for text that may be misspelt, and where there is a choice
// in both ways.
import MiniSearch from '/minisearch.js';
import Fuse from '/fuse.js.js';

(async () => {
	const { documents, queries } = await (await fetch('/asked.json')).json();
	documents.forEach((d, i) => { d.id = i; });
	const pause = () => new Promise((done) => setTimeout(done));

	const ask = async (way, find) => {
		const sum = { way, first: 0, five: 0, heldFirst: 0, heldFive: 0 };
		const times = [];
		let held = 0;
		for (const q of queries) {
			const start = performance.now();
			const found = find(q.text);
			times.push(performance.now() - start);
			const answers = new Set(q.answers);
			const first = answers.has(found[0]) ? 1 : 0;
			const five = found.slice(0, 5).some((id) => answers.has(id)) ? 1 : 0;
			sum.first += first;
			sum.five += five;
			if (q.held) {
				held++;
				sum.heldFirst += first;
				sum.heldFive += five;
			}
			await pause();
		}
		times.sort((a, b) => a - b);
		sum.first /= queries.length;
		sum.five /= queries.length;
		sum.heldFirst /= held;
		sum.heldFive /= held;
		sum.median = times[Math.floor(times.length / 2)];
		sum.slow = times[Math.floor(times.length * 0.95)];
		return sum;
	};

	const mini = new MiniSearch({ fields: ['title', 'text'], searchOptions: { boost: { title: 2 }, fuzzy: 0.2, prefix: true } });
	mini.addAll(documents);
	const any = (text) => mini.search(text).map((r) => r.id);
	const all = (text) => {
		const found = mini.search(text, { combineWith: 'AND' }).map((r) => r.id);
		return found.length ? found : any(text);
	};
	const options = { keys: [{ name: 'title', weight: 2 }, 'text'], ignoreLocation: true, shouldSort: true };
	const strict = new Fuse(documents, { ...options, threshold: 0.3 });
	const loose = new Fuse(documents, { ...options, threshold: 0.5 });
	const fuse = (f) => (text) => f.search(text, { limit: 5 }).map((r) => r.refIndex);

	globalThis.results = {
		minisearch: [await ask('any word', any), await ask('all words', all)],
		'fuse.js': [await ask('threshold 0.3', fuse(strict)), await ask('threshold 0.5', fuse(loose))],
	};
})().catch((e) => { globalThis.failed = String(e.stack || e); });
