// The schema library tries to compile its checks with eval, which the page's security policy forbids; told before it does not try.
// It reads its settings from this global, which it makes itself only where there is none.
Object.assign(globalThis, { __zod_globalConfig: { jitless: true } });
