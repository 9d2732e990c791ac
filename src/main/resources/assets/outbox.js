/*
 * The phone's outbox. A report is kept in the browser's database before anything else happens to
 * it, and leaves it only against the server's acknowledgement. Pages load this file; the service
 * worker does too, to send when the browser says that there is a signal again.
 */
'use strict';
(async scope => {
  /** Of an entry. 1 knew one value a field and no photos; 2 has pairs, as a form sends them. */
  const FORMAT = 2;
  const STEPS = {
    1: entry => ({ ...entry, format: 2, fields: Object.entries(entry.fields), photos: [] }),
  };
  const NAME = 'trestle-outbox';
  const PAGES = 'trestle-pages-';
  const LIST = '/outbox/pages';
  const OPENED = 'trestle-opened';
  const KEEP_RECEIPTS = 3 * 24 * 3600e3;
  const FOR_OTHERS = ['csrf-token', 'form-key', 'resumed', 'then'];

  // The entries: {key, format, person, operator, action, title, made, changed, fields, photos,
  // state: waiting | sending | refused, problems}; once received only {…, number, link} is left.

  const opened = () => new Promise((done, failed) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () =>
      request.result.createObjectStore('entries', { keyPath: 'key' });
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

  async function store(mode, work) {
    const database = await opened();
    try {
      return await new Promise((done, failed) => {
        const all = database.transaction('entries', mode, { durability: 'strict' });
        const request = work(all.objectStore('entries'));
        all.oncomplete = () => done(request.result);
        all.onabort = () => failed(all.error);
      });
    } finally {
      database.close();
    }
  }

  function migrated(entry) {
    let now = entry;
    while (STEPS[now.format]) now = STEPS[now.format](now);
    return now;
  }

  const entries = async () =>
    (await store('readonly', all => all.getAll())).map(migrated)
      .sort((a, b) => a.made - b.made);

  const put = entry => store('readwrite', all => all.put(entry)).then(tell);

  /** Reads and writes in one transaction, so that two tabs don't undo each other's change. */
  const change = (key, edit) => store('readwrite', all => {
    const found = all.get(key);
    found.onsuccess = () => {
      const next = found.result && edit(migrated(found.result));
      if (next) all.put(next);
    };
    return found;
  }).then(tell);

  const removeAll = keys => store('readwrite', all => {
    let last = { result: null };
    keys.forEach(key => last = all.delete(key));
    return last;
  }).then(tell);

  const channel = scope.BroadcastChannel && new BroadcastChannel(NAME);
  let told = () => {};

  function tell() {
    channel?.postMessage('changed');
    told();
  }

  const isUnsent = entry => entry.state !== 'received';
  const isOf = (entry, who) => entry.person === who.person && entry.operator === who.operator;
  const isToSend = entry =>
    entry.format === FORMAT && (entry.state === 'waiting' || entry.state === 'sending');

  // Sending, by one at a time: a tab or the service worker.

  let turn = Promise.resolve();

  function oneAtATime(work) {
    if (scope.navigator.locks) return navigator.locks.request(NAME, work);
    turn = turn.then(work, work);
    return turn;
  }

  async function asked(path) {
    const answer = await fetch(path, {
      headers: { Accept: 'application/json' },
      cache: 'no-store',
      signal: AbortSignal.timeout(20e3),
    });
    // A hotel's sign-in page answers too: what is not ours counts as no answer.
    if (!answer.ok || answer.redirected || !isJson(answer)) throw new Error('no answer');
    return answer.json();
  }

  const isJson = answer => /json/.test(answer.headers.get('Content-Type') || '');

  /**
   * Sends what waits; one that the server can't take now lets the others pass. Answers done, later
   * (something still waits) or sign-in.
   */
  const send = () => oneAtATime(async () => {
    if (!(await entries()).some(isToSend)) return 'done';
    let who;
    try {
      who = await asked('/outbox/sender');
    } catch {
      return 'later';
    }
    if (!who.person) return 'sign-in';
    let end = 'done';
    for (const entry of (await entries()).filter(each => isToSend(each) && isOf(each, who))) {
      const outcome = await sendOne(entry, who.token);
      if (outcome === 'sign-in') return outcome;
      if (outcome !== 'next') end = 'later';
      if (outcome === 'no signal') break;
    }
    return end;
  });

  async function sendOne(entry, token) {
    await change(entry.key, now => ({ ...now, state: 'sending' }));
    // What was changed while it was on its way is not what the answer is about.
    const same = now => now.state === 'sending' && now.changed === entry.changed;
    const settle = edit => change(entry.key, now => (same(now) ? edit(now) : null));
    let answer, said;
    try {
      answer = await fetch(entry.action, {
        method: 'POST',
        body: bodyOf(entry, token),
        headers: { Accept: 'application/json' },
        cache: 'no-store',
        redirect: 'manual',
        signal: AbortSignal.timeout(entry.photos.length ? 300e3 : 60e3),
      });
      said = isJson(answer) ? await answer.json() : null;
    } catch {
      said = null;
    }
    if (answer?.ok && said?.receivedAs) {
      await settle(receipt(said));
      return 'next';
    }
    if (answer?.status === 413) {
      said = { detail: 'It is too large for the server: leave some photos out.' };
    }
    if (answer && said && answer.status >= 400 && answer.status < 500 && answer.status !== 401
        && answer.status !== 408 && answer.status !== 429) {
      await settle(now =>
        ({ ...now, state: 'refused', asks: said.asks, problems: problemsOf(said), link: said.link }));
      return 'next';
    }
    await settle(now => ({ ...now, state: 'waiting', tried: Date.now() }));
    if (!answer) return 'no signal';
    return answer.status === 401 ? 'sign-in' : 'later';
  }

  function bodyOf(entry, token) {
    const body = new FormData();
    body.append('csrf-token', token);
    body.append('form-key', entry.key);
    entry.fields.forEach(([name, value]) => body.append(name, value));
    entry.photos.forEach(photo => body.append('photos', photo, photo.name || 'photo.jpg'));
    return body;
  }

  const receipt = said => now => ({
    key: now.key, format: FORMAT, person: now.person, operator: now.operator, title: now.title,
    made: now.made, state: 'received', number: said.receivedAs, what: said.what, link: said.link,
    received: Date.now(),
  });

  const problemsOf = said => (said.errors || []).length
    ? said.errors.map(error => ({ field: error.field.slice(1), sentence: error.reason }))
    : [{ field: '', sentence: said.detail || 'The server did not accept it.' }];

  scope.trestleOutbox = { send };
  if (!scope.document) return;

  // From here on: pages. The script comes as soon as it can, before the style: once the form is
  // there it is made ready, and then drawn.
  if (document.readyState === 'loading') {
    await new Promise(done => document.addEventListener('DOMContentLoaded', done));
  }

  const who = { person: document.body.dataset.person, operator: document.body.dataset.operator };
  const asking = new URLSearchParams(location.search);

  /** An element with its attributes and what it holds. */
  function make(tag, attributes, ...inside) {
    const made = document.createElement(tag);
    Object.entries(attributes).forEach(([name, value]) => made.setAttribute(name, value));
    made.append(...inside);
    return made;
  }

  const many = (count, word) => `${count} ${word}${count === 1 ? '' : 's'}`;
  const mine = async () => (await entries()).filter(entry => isOf(entry, who));
  let wait = 5e3, timer, asksToSignIn = false;

  /** Tries to send, and tries again later for as long as something waits. */
  async function attempt() {
    clearTimeout(timer);
    const outcome = await send().catch(() => 'later');
    asksToSignIn = outcome === 'sign-in';
    if (outcome === 'later') {
      timer = setTimeout(attempt, wait);
      wait = Math.min(wait * 2, 300e3);
    } else {
      wait = 5e3;
    }
    told();
    return outcome;
  }

  function attemptAnew() {
    wait = 5e3;
    attempt();
  }

  // Every page says what waits.

  async function show() {
    let all = [];
    try {
      all = await entries();
    } catch {
      // Without a database there is nothing kept to speak of.
    }
    const unsent = all.filter(isUnsent);
    const own = unsent.filter(entry => isOf(entry, who));
    const line = document.querySelector('.unsent');
    if (line) {
      line.hidden = !unsent.length;
      line.replaceChildren(make('a', { href: '/outbox' }, words(own, unsent.length - own.length)));
    }
    showOutbox(all.filter(entry => isOf(entry, who)), unsent.length - own.length);
  }

  function words(own, others) {
    const back = own.filter(entry => entry.state === 'refused');
    if (back.length) {
      return `${many(back.length, 'report')} on this phone not filed yet: ${
        back.every(entry => entry.asks) ? 'a question on it' : 'put right'}`;
    }
    if (own.length) {
      const rest = asksToSignIn ? ': sign in to send' : ', not sent yet';
      return `${many(own.length, 'report')} on this phone${rest}`;
    }
    return `${many(others, 'report')} of somebody else on this phone, not sent yet`;
  }

  // The page of the outbox.

  function showOutbox(own, others) {
    const list = document.querySelector('#outbox');
    if (!list) return;
    list.replaceChildren(...own.slice().reverse().map(line));
    const unsent = own.some(isUnsent);
    document.querySelector('#outbox-empty').hidden = own.length > 0;
    document.querySelector('#outbox-send').hidden = !own.some(isToSend);
    document.querySelector('#outbox-sign-in').hidden = !(asksToSignIn || (!who.person && others));
    document.querySelector('#outbox-closed').hidden = !unsent;
    const theirs = document.querySelector('#outbox-others');
    theirs.hidden = !others;
    theirs.textContent = `${many(others, 'report')} of somebody else ${others === 1 ? 'waits'
      : 'wait'} on this phone, and ${others === 1 ? 'is' : 'are'} sent once they sign in.`;
  }

  function line(entry) {
    const item = make('li', { 'data-key': entry.key }, make('b', {}, entry.title), make('br', {}));
    if (entry.format !== FORMAT) {
      item.append('Kept by a newer release of Trestle: open this page again when there is a signal.');
    } else if (entry.state === 'received') {
      item.append(make('a', { href: entry.link },
        `Received as ${entry.what ? entry.what + ' ' : ''}No. ${entry.number}`));
    } else if (entry.state === 'sending') {
      item.append('Sending', photos(entry));
    } else if (entry.state === 'waiting') {
      item.append('On this phone, not sent yet', photos(entry), '. ', open(entry, 'Look at it'));
    } else {
      item.append(entry.asks ? 'On this phone, not filed yet: a question on it'
        : 'On this phone, not accepted', photos(entry), '.');
      entry.problems.forEach(({ sentence }) =>
        item.append(make('p', { class: 'error' }, sentence)));
      if (entry.link) item.append(make('a', { href: entry.link }, 'What this form has filed'));
      item.append(make('p', { class: 'actions' }, open(entry, entry.asks ? 'Open it and answer'
        : 'Open it and put it right'),
        taking(entry)));
    }
    return item;
  }

  const photos = entry =>
    entry.photos.length ? `, with ${many(entry.photos.length, 'photo')}` : '';

  const open = (entry, words) => make('a', { href: `${entry.action}/new?entry=${entry.key}` }, words);

  /** A report is thrown away only by somebody who has said so twice. */
  function taking(entry) {
    const button = make('button', { type: 'button', class: 'link' }, 'Take it off this phone');
    button.onclick = () => {
      button.textContent = 'Take it off: it is not on file, and then nowhere';
      button.onclick = () => removeAll([entry.key]);
    };
    return button;
  }

  // The form.

  const form = document.querySelector('[data-outbox]')?.closest('form');
  let filing = false;
  const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August',
    'September', 'October', 'November', 'December'];

  function dayIn(zone) {
    const parts = {};
    new Intl.DateTimeFormat('en', { timeZone: zone, year: 'numeric', month: 'numeric',
      day: 'numeric' }).formatToParts().forEach(({ type, value }) => parts[type] = value);
    return `${parts.day} ${MONTHS[parts.month - 1]} ${parts.year}`;
  }

  const newKey = () => {
    if (crypto.randomUUID) return crypto.randomUUID();
    const hex = [...crypto.getRandomValues(new Uint8Array(16))].map((byte, at) => {
      const bits = at === 6 ? byte & 15 | 64 : at === 8 ? byte & 63 | 128 : byte;
      return bits.toString(16).padStart(2, '0');
    }).join('');
    return hex.replace(/(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
  };

  /** Fills the form with an entry; what this page doesn't ask is carried along unseen. */
  function fill(fields) {
    [...form.elements].forEach(input => {
      if (input.type === 'radio' || input.type === 'checkbox') input.checked = false;
    });
    for (const [name, value] of fields) {
      if (FOR_OTHERS.includes(name)) continue;
      const inputs = [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)];
      const box = inputs.find(input => input.value === value && 'checked' in input
        && (input.type === 'radio' || input.type === 'checkbox'));
      if (box) box.checked = true;
      else if (inputs.length) inputs[0].value = value;
      else form.append(make('input', { type: 'hidden', name, value }));
    }
  }

  function fillPhotos(entry) {
    const field = form.querySelector('input[type=file]');
    if (!field || !entry.photos.length) return;
    const files = new DataTransfer();
    entry.photos.forEach((photo, at) =>
      files.items.add(new File([photo], photo.name || `photo-${at + 1}.jpg`, { type: photo.type })));
    field.files = files.files;
  }

  const valueOf = (entry, name) => (entry.fields.find(field => field[0] === name) || [])[1];

  /**
   * A form opened anew takes a report at once. What the phone's database has to say comes after,
   * and changes no field that somebody has typed in meanwhile.
   */
  async function prepareForm() {
    const marks = form.querySelector('[data-outbox]').dataset;
    const key = form.elements['form-key'];
    const given = key.value;
    const anew = !marks.again;
    if (anew) beginAnew(marks, key);
    if (anew && !asking.has('entry') && !asking.has('follow')) takeReports();
    const shown = new Map([...form.elements].map(input => [input, input.value]));
    const unsent = (await mine()).filter(entry => entry.format === FORMAT && isUnsent(entry));
    if (filing) return;
    const again = unsent.find(entry => entry.key === (asking.get('entry') || given));
    if (again) {
      key.value = again.key;
      if (asking.has('entry')) {
        if (again.state === 'refused' && navigator.onLine && await askAgain(again)) return;
        fill(again.fields);
        again.problems?.forEach(problem => note(problem.sentence, 'error'));
      }
      fillPhotos(again);
    } else if (anew) {
      followOn(unsent.filter(entry => entry.action === form.getAttribute('action')).pop(), shown);
    }
    takeReports();
  }

  /** A page that was kept is opened more than once: each opening is a form of its own. */
  function beginAnew(marks, key) {
    key.value = newKey();
    if (!kept) return;
    const day = form.elements[marks.day];
    if (day.value === day.defaultValue) day.value = dayIn(marks.zone);
    for (const name of ['aircraft', 'place'].filter(name => asking.has(name))) {
      if (form.elements[name]) form.elements[name].value = asking.get(name);
    }
  }

  function takeReports() {
    form.addEventListener('submit', submit);
    form.dataset.ready = 'yes';
  }

  /** The next flight begins where the one ended that the server has not heard of yet. */
  function followOn(entry, shown) {
    const set = (name, value) => {
      const input = form.elements[name];
      if (input && input.value === shown.get(input)) input.value = value;
    };
    if (!entry || !valueOf(entry, 'to')) return;
    set('from', valueOf(entry, 'to'));
    if (entry.key !== asking.get('follow')) return;
    for (const name of ['date', 'commander']) set(name, valueOf(entry, name));
    set('meter-out', valueOf(entry, 'meter-in') || '');
    if (valueOf(entry, 'fuel-left')) set('fuel-added', '0');
  }

  /** Has the server show the form with its sentences; it files nothing by that. */
  async function askAgain(entry) {
    let token;
    try {
      ({ token } = await asked('/outbox/sender'));
    } catch {
      return false;
    }
    const resent = make('form', { method: 'post', action: entry.action });
    const pairs = [...entry.fields, ['csrf-token', token], ['form-key', entry.key], ['resumed', '1']];
    pairs.forEach(([name, value]) =>
      resent.append(make('input', { type: 'hidden', name, value })));
    document.body.append(resent);
    resent.submit();
    return true;
  }

  function note(sentence, kind) {
    const said = make('p', { class: kind, role: kind === 'error' ? 'alert' : 'status' }, sentence);
    form.querySelector('.outbox').append(said);
    return said;
  }

  const busy = yes => form.querySelectorAll('button').forEach(button => button.disabled = yes);

  function entryOf(was) {
    const fields = [], photos = [];
    for (const [name, value] of new FormData(form)) {
      if (typeof value === 'object') {
        if (value.size) photos.push(value);
      } else if (!FOR_OTHERS.includes(name)) {
        fields.push([name, value]);
      }
    }
    const of = name => (fields.find(field => field[0] === name) || [, ''])[1];
    const chosen = form.elements.aircraft?.selectedOptions?.[0]?.text;
    const registration = form.querySelector('[data-outbox]').dataset.outbox || chosen;
    const route = of('from') || of('to') ? `, ${of('from')} to ${of('to')}` : '';
    const alone = form.elements.kind ? 'event' : 'defect';
    const title = !form.elements.from ? `, ${alone}: ${of('words').slice(0, 60)}`
      : `, ${of('date')} ${of('take-off')}${route}${
        of('anything-wrong') === 'defect' ? ', with a defect' : ''}`;
    return {
      key: form.elements['form-key'].value, format: FORMAT, person: of('written-by'),
      operator: of('written-in'), action: form.getAttribute('action'),
      title: registration + title,
      made: was?.made || Date.now(), changed: Date.now(), fields, photos, state: 'waiting',
      problems: [],
    };
  }

  async function submit(event) {
    event.preventDefault();
    const next = event.submitter?.value === 'next';
    filing = true;
    busy(true);
    form.querySelectorAll('.outbox > p:not(.age)').forEach(said => said.remove());
    const was = (await mine().catch(() => [])).find(e => e.key === form.elements['form-key'].value);
    const entry = entryOf(was);
    try {
      await put(entry);
    } catch {
      noRoom();
      return;
    }
    scope.navigator.storage?.persist?.();
    syncLater();
    const status = note('Kept on this phone. Sending…', 'kept');
    if (navigator.onLine) {
      const slow = setTimeout(() => status.textContent = 'Kept on this phone. Sending takes long: '
        + 'you may close the page, it is sent by itself.', 8e3);
      await attempt();
      clearTimeout(slow);
    }
    const now = (await mine()).find(each => each.key === entry.key);
    localStorage.removeItem(NAME);
    if (now?.state === 'received') {
      location.href = next ? now.link.replace(/[^/]*$/, id => `new?after=${id}`) : now.link;
    } else if (now?.state === 'refused' && await askAgain(now)) {
      return;
    } else if (!navigator.serviceWorker?.controller) {
      // Without a service worker no other page opens without a signal: stay on this one.
      status.textContent = 'Kept on this phone, not sent yet. Leave this page open until there is a '
        + 'signal: it is sent by itself.';
    } else {
      location.href = next && now?.state !== 'refused' ? `${entry.action}/new?follow=${entry.key}`
        : '/outbox';
    }
  }

  function noRoom() {
    busy(false);
    const said = note('This phone has no room to keep the report, so it is neither kept nor sent. '
      + 'All you typed is still on this page. Free some room and file it again, or, where there is a '
      + 'signal, ', 'error');
    const button = make('button', { type: 'button', class: 'link' }, 'send it without keeping it');
    button.onclick = () => form.submit();
    said.append(button, '.');
    said.scrollIntoView({ block: 'center' });
  }

  async function syncLater() {
    try {
      const worker = await navigator.serviceWorker.ready;
      await worker.sync.register(NAME);
    } catch {
      // Not every browser has it: pages send as well.
    }
  }

  // Pages that were kept say how old they are, and take nothing that needs the server.

  const made = new Date(document.body.dataset.made);
  // The service worker says so: a phone's clock may be wrong.
  const kept = 'kept' in document.body.dataset;

  function sayAge() {
    document.querySelectorAll('.age').forEach(said => said.remove());
    const part = form ? form.querySelector('.outbox') : document.querySelector('main');
    if (document.querySelector('#outbox') || navigator.onLine && !kept) return;
    const at = made.toLocaleString('en-GB', { day: 'numeric', month: 'short', hour: '2-digit',
      minute: '2-digit' });
    part.prepend(make('p', { class: 'kept age', role: 'status' },
      navigator.onLine ? '' : 'No signal. ',
      kept ? `This page is as this phone kept it at ${at}, ${ago(Date.now() - made)} ago. ` : '',
      form ? 'The report stays on this phone and is sent by itself later; you may close the page '
        + 'once you have filed it.' : 'Nothing can be signed or filed on it until there is a signal.'));
  }

  function ago(ms) {
    const minutes = Math.round(ms / 60e3);
    if (minutes < 90) return minutes < 1 ? 'less than a minute' : many(minutes, 'minute');
    const hours = Math.round(minutes / 60);
    return hours < 48 ? many(hours, 'hour') : many(Math.round(hours / 24), 'day');
  }

  /** A kept page's own forms are out of date; off line none but the outbox's goes anywhere. */
  function closeForms() {
    document.querySelectorAll('main form[method=post]').forEach(other =>
      other.hidden = other !== form && (kept || !navigator.onLine));
  }

  // Keeping the pages that are needed without a signal.

  async function keepPages() {
    if (!scope.caches || !who.person) return;
    const name = `${PAGES}${who.person}-${who.operator}`;
    for (const other of await caches.keys()) {
      if (other.startsWith(PAGES) && other !== name) await caches.delete(other);
    }
    const last = JSON.parse(localStorage.getItem(NAME) || '{}');
    const release = document.body.dataset.release;
    const opened = openedLately().join('&opened=');
    if (last.name === name && last.release === release && last.opened === opened
        && Date.now() - last.at < 600e3 && await caches.has(name)) {
      return;
    }
    const said = await asked(`/outbox/pages?opened=${opened}`);
    const wanted = ['/outbox', ...said.pages.map(page => page.href)];
    const cache = await caches.open(name);
    await cache.put(LIST, new Response(JSON.stringify(said)));
    for (const path of wanted) {
      const answer = await fetch(path, { cache: 'no-store' });
      if (answer.ok && !answer.redirected) await cache.put(path, answer);
    }
    for (const request of await cache.keys()) {
      if (![LIST, ...wanted].includes(new URL(request.url).pathname)) await cache.delete(request);
    }
    localStorage.setItem(NAME, JSON.stringify({ name, release, opened, at: Date.now() }));
  }

  /** The aircraft whose pages were opened on this phone: who looks before a flight reports it. */
  function openedLately() {
    const before = JSON.parse(localStorage.getItem(OPENED) || '[]');
    const here = /^\/aircraft\/([0-9a-f-]{36})\/(reports\/new|pre-flight)$/.exec(location.pathname);
    if (!here || before.includes(here[1])) return before;
    const now = [here[1], ...before].slice(0, 4);
    localStorage.setItem(OPENED, JSON.stringify(now));
    return now;
  }

  /** On the outbox page: what may be opened without a signal. */
  async function showPages() {
    const list = document.querySelector('#kept-pages');
    if (!list || !scope.caches || !who.person) return;
    const kept = await caches.match(LIST);
    if (!kept) return;
    const { pages } = await kept.json();
    list.replaceChildren(...pages.map(page =>
      make('li', {}, make('a', { href: page.href }, page.label))));
    document.querySelector('#kept-part').hidden = !pages.length;
  }

  // Signing out leaves what is unsent, bound to its writer, and takes all else.

  function guardSignOut() {
    const out = document.querySelector('form[action="/sign-out"]');
    let warned = false;
    out?.addEventListener('submit', async event => {
      event.preventDefault();
      const own = await mine().catch(() => []);
      const unsent = own.filter(isUnsent).length;
      if (unsent && !warned) {
        warned = true;
        out.querySelector('button').textContent = 'Sign out all the same';
        document.querySelector('main').prepend(make('p', { class: 'note', role: 'alert' },
          `${many(unsent, 'report')} on this phone ${unsent === 1 ? 'is' : 'are'} not sent yet. `
            + 'Signed out, they stay here, unseen by others, and are sent when you sign in again.'));
        return;
      }
      await removeAll(own.filter(entry => !isUnsent(entry)).map(entry => entry.key)).catch(() => {});
      [NAME, OPENED].forEach(name => localStorage.removeItem(name));
      for (const name of scope.caches ? await caches.keys() : []) {
        if (name.startsWith(PAGES)) await caches.delete(name);
      }
      out.submit();
    });
  }

  async function forgetReceipts() {
    const old = (await entries()).filter(entry =>
      entry.state === 'received' && Date.now() - entry.received > KEEP_RECEIPTS);
    if (old.length) await removeAll(old.map(entry => entry.key));
  }

  async function startWorker() {
    const workers = navigator.serviceWorker;
    await workers?.register('/sw.js', { updateViaCache: 'none' });
    const { active } = await workers.ready;
    // A page that was on its way while the worker took over has been missed by it.
    if (!workers.controller) active.postMessage('claim');
  }

  async function start() {
    told = show;
    channel?.addEventListener('message', show);
    guardSignOut();
    sayAge();
    closeForms();
    if (form) await prepareForm().catch(takeReports);
    document.querySelector('#outbox-send button')?.addEventListener('click', attemptAnew);
    for (const turn of ['online', 'offline']) {
      addEventListener(turn, () => { sayAge(); closeForms(); });
    }
    addEventListener('online', () => { attemptAnew(); keepPages().catch(() => {}); });
    document.addEventListener('visibilitychange', () => {
      if (!document.hidden) attemptAnew();
    });
    await show();
    await forgetReceipts().catch(() => {});
    if (who.person) startWorker().catch(() => {});
    attempt();
    await showPages().catch(() => {});
    await keepPages().then(showPages).catch(() => {});
  }

  start();
})(self);
