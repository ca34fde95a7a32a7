// Solves the generated planning problems with a general mixed-integer solver. The model
// is the plain one of its textbook: a variable a copy, a tool and a position covered.
(async () => {
	const problems = await (await fetch('/problems.json')).json();
	const solver = await Module({ locateFile: (name) => '/' + name });
	const pause = () => new Promise((done) => setTimeout(done));

	const model = (p) => {
		const names = Object.keys(p.limits);
		const limit = Object.fromEntries(names.map((n) => [n, []]));
		const goal = [], rows = [], whole = [], bounds = [];
		const put = (name, from) => {
			whole.push(name);
			names.forEach((n) => { if (from[n]) limit[n].push(`${from[n]} ${name}`); });
		};
		p.tools.forEach((t) => put('z' + t.id, t));
		(p.groups || []).forEach((g) => {
			const mean = g.position_rates.reduce((a, b) => a + b, 0);
			let mass = Math.exp(-mean), upTo = mass;
			for (let k = 1; k <= g.copies; k++) {
				const name = `x${g.id}_${k}`;
				put(name, g);
				goal.push(`${g.loss * (1 - upTo)} ${name}`);
				g.tools.forEach((t) => rows.push(`${name} - z${t} <= 0`));
				if (k > 1) rows.push(`${name} - x${g.id}_${k - 1} <= 0`);
				mass *= mean / k;
				upTo += mass;
			}
		});
		const fitting = {};
		(p.items || []).forEach((i) => {
			put('x' + i.id, i);
			i.fits.forEach((f) => (fitting[f] = fitting[f] || []).push('x' + i.id));
		});
		(p.positions || []).forEach((q) => {
			goal.push(`${q.p * q.loss} y${q.id}`);
			bounds.push(`0 <= y${q.id} <= 1`);
			rows.push(`y${q.id} - ${fitting[q.id].join(' - ')} <= 0`);
			q.tools.forEach((t) => rows.push(`y${q.id} - z${t} <= 0`));
		});
		names.forEach((n) => rows.push(`${limit[n].join('\n + ')} <= ${p.limits[n]}`));
		return `Maximize\n obj: ${goal.join('\n + ')}\nSubject To\n${rows.map((r, i) => ` c${i}: ${r}`).join('\n')}\n` +
			`Bounds\n${bounds.join('\n')}\nBinaries\n${whole.join('\n')}\nEnd\n`;
	};

	const results = {};
	for (const { name, problem } of problems) {
		const text = model(problem);
		const start = performance.now();
		let answer;
		try {
			answer = solver.solve(text, { time_limit: 20, mip_rel_gap: 0, mip_abs_gap: 1e-7 });
		} catch (e) {
			answer = { Status: String(e), ObjectiveValue: 0 };
		}
		results[name] = { ms: performance.now() - start, value: answer.ObjectiveValue, proved: answer.Status === 'Optimal' };
		await pause();
	}
	globalThis.results = results;
})().catch((e) => { globalThis.failed = String(e.stack || e); });
