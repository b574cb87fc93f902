// A line of requests in which only the newest waits.

/**
 * Wraps `ask` so that at most one request is under way. A request made meanwhile waits; when a newer one comes it
 * answers null instead of being asked at all.
 */
export function newestOnly<Request, Answer>(
  ask: (request: Request) => Promise<Answer>,
): (request: Request) => Promise<Answer | null> {
  let underWay: Promise<unknown> | null = null;
  let newest = 0;
  return async (request) => {
    const mine = ++newest;
    while (underWay) await underWay;
    if (mine !== newest) return null;
    const answer = ask(request);
    const settled = answer.then(noop, noop).then(() => {
      underWay = null;
    });
    underWay = settled;
    return answer;
  };
}

function noop(): void {}
