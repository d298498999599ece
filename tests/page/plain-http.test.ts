/** From another machine without HTTPS the browser keeps nothing: the page says so, and what to do. */
import { networkInterfaces } from "node:os";
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { testService } from "../help/service.ts";

const shop = atPage();
const token = "a-long-secret-of-the-shop";

it("about says that this device keeps the plan, where it does", async () => {
  const page = await shop.open("#/about");
  await page.getByText("This device keeps the last plan").waitFor();
  expect(await page.getByText("keeps no page from here").count()).toBe(0);
});

it("about says that another device without HTTPS does not", async () => {
  const outside = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .find(({ internal, family }) => !internal && family === "IPv4");
  if (outside === undefined) throw new Error("This machine has no address that another one could reach.");
  const service = await testService({ token, host: outside.address });
  const page = await shop.open("#/about", { at: service, says: /401|Cross-Origin-Opener-Policy|Origin-Agent-Cluster/ });
  await page.getByLabel("Token").fill(token);
  await page.getByRole("button", { name: "Enter" }).click();
  await page.getByText("This browser keeps no page from here").waitFor();
  // Before its service, or it would complain that it cannot ask any more.
  await page.close();
  await service.stop();
});
