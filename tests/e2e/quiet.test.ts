// The page asks nobody but its own origin, under a strict policy. That it does so at work, and without a word on the console,
// is held by every test that opens something: `leave` fails it otherwise.

import { expect, inject, test } from "vitest";
import { leave, useBrowser } from "./page.ts";

const browser = useBrowser();

test("the policy is sent with the page and stands in it", async () => {
  const answer = await fetch(inject("address"));
  const policy = answer.headers.get("content-security-policy") ?? "";
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("script-src 'self'");
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval|\*|https?:/);
  expect(await answer.text()).toContain("Content-Security-Policy");
});

test("an injected script and a foreign request are refused", async () => {
  const visit = await browser.visit();
  const outcome = await visit.page.evaluate(async () => {
    const script = document.createElement("script");
    script.textContent = "window.injected = true";
    document.head.append(script);
    const foreign = await fetch("http://127.0.0.1:9/").then(
      () => "answered",
      () => "refused",
    );
    return { injected: "injected" in window, foreign };
  });
  expect(outcome).toEqual({ injected: false, foreign: "refused" });
  expect(visit.noise.some((line) => line.includes("Content Security Policy"))).toBe(true);
  await visit.close();
});

test("on a system whose language is none, the page starts", async () => {
  const visit = await browser.visit();
  await visit.context.addInitScript(() =>
    Object.defineProperty(navigator, "language", { value: "C", configurable: true }),
  );
  await visit.page.reload();
  await visit.page.getByRole("button", { name: /sample job/i }).waitFor();
  await leave(visit);
});
