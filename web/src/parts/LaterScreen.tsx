import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Screen } from './Screen.tsx';
import { Trouble } from './Trouble.tsx';
import { Waiting } from './Waiting.tsx';

const GONE = {
  code: 'offline',
  message:
    'This page could not be fetched: the Layfair server is off, or newer than the page. Ask again, or open the address anew.',
  issues: [],
};

/** A screen that is fetched when it is first opened, so that the first page stays light. */
export function laterScreen(title: string, load: () => Promise<ComponentType>): ComponentType {
  let known: ComponentType | null = null;
  return function LaterScreen() {
    const [, setTry] = useState(0);
    const [lost, setLost] = useState(false);
    const fetchIt = () => {
      setLost(false);
      load().then(
        (found) => {
          known = found;
          setTry((n) => n + 1);
        },
        () => setLost(true),
      );
    };
    useEffect(() => {
      if (known === null) fetchIt();
    }, []);
    if (known !== null) {
      const Known = known;
      return <Known />;
    }
    // No heading to move the focus to yet: the screen itself does that once it is here.
    if (!lost) {
      return (
        <main id="content" class="screen">
          <Waiting words="Fetching the page …" />
        </main>
      );
    }
    return (
      <Screen title={title}>
        <Trouble problem={GONE} again={fetchIt} />
      </Screen>
    );
  };
}
